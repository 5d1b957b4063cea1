/// Alternatives in a few words, each made by an edit of the calendar (edits.h).
///
/// Understood: "no-till"; "chisel instead of plow" and any tool instead of another; "cover crop after corn", "hairy
/// vetch cover after corn, ended 10 days before planting" (two weeks if nothing is said; a cover crop without a name is
/// cereal rye); "leave the stalks"; "take 50 % of the stalks", "take the stalks after corn" (70 % if nothing is said); "tillage in spring"; "3 years
/// of alfalfa". Several may be joined by " + ".
#pragma once

#include <string_view>

#include "rotation/edits.h"

namespace soilhold::rotation {

/// @throws std::invalid_argument for words not understood, saying what is; and as the edits do
Edited edit_by_words(const Rotation& rotation, std::string_view words);

}  // namespace soilhold::rotation
