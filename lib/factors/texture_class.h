/// The texture class of a soil by the triangle of its sand, silt and clay: what tables of K and of permeability ask
/// for.
///
/// Twelve classes, every mixture in exactly one. The finer words ("very fine sandy loam") need the sizes of the sand
/// and are not given here.
/// @source USDA Soil Survey Manual, texture triangle (from memory); held to the classes a soil survey printed for its
///         own horizons
#pragma once

#include <string_view>

namespace soilhold::factors {

/// "silt loam", "sandy clay", ... as data/reference spells them.
/// @param sand_pct, silt_pct, clay_pct  shares of the fine earth, none negative, summing to 100 % within 0.5
/// @throws std::invalid_argument otherwise
std::string_view texture_class(double sand_pct, double silt_pct, double clay_pct);

}  // namespace soilhold::factors
