/// The words for soil structure and permeability that K is worked out with, and their codes.
///
/// Structure 1 very fine granular, 2 fine granular, 3 medium or coarse granular, 4 blocky, platy or massive.
/// Permeability 1 rapid, 2 moderate to rapid, 3 moderate, 4 slow to moderate, 5 slow, 6 very slow.
/// @source Wischmeier & Smith 1978 (AH 537) figure 3 (from memory); permeability by conductivity: codes of the National
///         Soil Survey Handbook for the slowest layer in the top 50 cm (limits read in a reprint)
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace soilhold::input {

std::span<const std::string_view> structure_words();
std::span<const std::string_view> permeability_words();

/// Code 1..4 of a word in lower case, or none.
std::optional<int> structure_code(std::string_view word);

/// Code 1..6 of a word in lower case, or none.
std::optional<int> permeability_code(std::string_view word);

/// Code 1..6 of a saturated hydraulic conductivity. @param um_per_s  um/s, >= 0
int permeability_code_of(double um_per_s);

/// The texture classes by name, in lower case.
std::span<const std::string_view> texture_classes();

}  // namespace soilhold::input
