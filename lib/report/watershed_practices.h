/// What a watershed's report says of the rotations that give C and of the soil tests that give m, for the text: a table
/// of each with its doubt, and what stands behind the figures. Empty where the file has none.
#pragma once

#include <string>

#include "units/unit.h"
#include "watershed/watershed_result.h"

namespace soilhold::report {

std::string rotations_text(const watershed::WatershedResult& result);

/// Loss with m beside the loss without it, and the tests that change nothing with the reason.
std::string soil_tests_text(const watershed::WatershedResult& result, units::System system);

}  // namespace soilhold::report
