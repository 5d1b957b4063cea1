/// K by texture class and organic matter from two reprinted tables: what there is when no analysis is at hand.
///
/// The two tables differ by up to a factor of two in sands: they are alternatives, not halves of one. The extension
/// table's metric column is K in US units times 2.24, so it goes with R in US units only; it is no SI K.
/// @source Stewart et al. 1975, and an Ontario extension factsheet, both read in reprints:
///         data/reference/texture-erodibility.csv
#pragma once

#include <string_view>

namespace soilhold::factors {

/// K [US] of Stewart's table, straight between 0.5, 2 and 4 % organic matter.
/// @throws std::invalid_argument for a texture it lacks or organic matter outside 0.5 to 4 %
double texture_erodibility_stewart_us(std::string_view texture, double organic_matter_pct);

/// K [US] of the Ontario table. @param organic_matter  "average", "below 2 pct" or "above 2 pct"
/// @throws std::invalid_argument for a cell it lacks
double texture_erodibility_ontario_us(std::string_view texture, std::string_view organic_matter);

}  // namespace soilhold::factors
