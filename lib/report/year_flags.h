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

/// A flag set where its words cover no other's.
struct PlacedFlag {
    double x = 0;  ///< of the pole
    double left = 0, right = 0;
    std::size_t level = 0;           ///< of the lowest line; 0 is nearest to the bars
    std::vector<std::string> lines;  ///< from the top down
    std::size_t top() const { return level + lines.size(); }
};

/// Flags fly to the right of their pole, or to the left near the end of the panel. Poles keep clear of words where that
/// can be.
/// @param least_x, most_x  sides of the panel @param heading  width of words at its left, nearest to the bars
std::vector<PlacedFlag> placed_flags(const std::vector<YearFlag>& flags, double least_x, double most_x, double size,
                                     const Measure& measure, double heading = 0.0);

}  // namespace soilhold::report
