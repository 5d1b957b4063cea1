/// When a soak test says nothing about m: the test was spoilt, or the soil is one for which the links were not made.
/// @source our assumption; sands, gravel and dispersing soil lie outside the studies behind the links
#pragma once

#include <string>

#include "structure/structure_factor.h"

namespace soilhold::structure {

/// Why m is not applied, in a clause; empty when it may be.
std::string why_not_applied(const soiltest::Summary& tests, const Soil& soil,
                            const std::optional<LocalReference>& reference);

/// What to say of an m that is applied all the same.
source::Remarks remarks_on(const soiltest::Summary& tests, const Soil& soil, const Assessment& assessment);

}  // namespace soilhold::structure
