/// Straight lines between the rows of a reference table: the form in which the suitable percentages and the MWD
/// crosswalk are given. Outside the rows the nearest one holds.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace soilhold::structure {

using Knots = std::vector<std::pair<double, double>>;  ///< rising in the first

/// @throws std::invalid_argument without knots
double between_knots(const Knots& knots, double x);

/// The line that between_knots takes, with the numbers in: "65 + (70 - 65) x (18 - 14) / (19 - 14)", or one row's
/// value.
std::string knots_in_working(const Knots& knots, double x);

}  // namespace soilhold::structure
