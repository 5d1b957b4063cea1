/// Rotations in a few words: "corn-soybean, fall chisel, cereal rye cover after corn".
///
/// First the crops, one a year, joined by "-" or "/"; "continuous corn" is one year; a perennial named for years on end
/// is one stand, and a rotation of one perennial alone is an old stand. Then, after commas: how the ground is tilled
/// ("fall plow", "spring plow", "fall chisel", "spring chisel", "fall disk", "spring disk", "strip-till", "ridge-till",
/// "no-till"), "<cover crop> [after <crop>] [ended N days before]", "stalks baled".
/// Days are the usual ones of crops.csv, central Corn Belt, our assumption: a farmer's own replace them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rotation/rotation.h"

namespace soilhold::rotation {

/// @throws std::invalid_argument that says which word was not understood and what is known
Rotation rotation_of_words(std::string_view words);

/// The words for tillage.
const std::vector<std::string>& tillage_words();

}  // namespace soilhold::rotation
