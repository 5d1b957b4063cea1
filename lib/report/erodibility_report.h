/// Every published way to one soil's K in one table: value, bounds, or why a method does not answer.
#pragma once

#include <string>
#include <vector>

#include "factors/erodibility_methods.h"
#include "factors/quantities.h"

namespace soilhold::report {

/// The soil from key=value inputs: kf_us, kw_us, sand_pct, silt_pct, clay_pct, vfs_pct, om_pct, oc_pct, structure,
/// permeability, rock_pct, texture.
/// @throws std::invalid_argument for unknown keys and what is no number
factors::ErodibilityInputs soil_from(const factors::Inputs& inputs);

std::string methods_text(const std::vector<factors::MethodResult>& results);
std::string methods_json(const std::vector<factors::MethodResult>& results);

}  // namespace soilhold::report
