/// What is done to a field in a year, as flags over its strip: a pole down to the ground and words beside its top.
#pragma once

#include <string>
#include <vector>

#include "report/scene.h"

namespace soilhold::report {

struct YearFlag {
    std::size_t half_month = 0;  ///< 0..23
    std::string words;           ///< "chisel plow"
};

/// A flag of a strip set where it covers no other.
struct PlacedFlag {
    double x = 0, left = 0, right = 0;
    std::size_t level = 0;  ///< 0 is nearest to the bars
    std::string words;
};

/// Flags fly to the right of their pole, or to the left at the end of the panel; no pole runs through a word.
/// @param least_x, most_x  sides of the panel
std::vector<PlacedFlag> placed_flags(const std::vector<YearFlag>& flags, double least_x, double most_x, double size,
                                     const Measure& measure);

}  // namespace soilhold::report
