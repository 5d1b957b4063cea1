/// The structure and permeability codes of the nomograph, from what a survey says.
///
/// The structure code goes by size of granule, not by how well it stands in water; permeability code 6 is the slowest,
/// and the slowest layer within 50 cm rules.
/// @source National Soil Survey Handbook 618.59 D(4) (read): data/reference/structure-codes.csv,
/// permeability-codes.csv.
///         Words for permeability: AH 537 figure 3 (from memory): permeability-words.csv.
///         By texture: AH 703 ch. 3 after Rawls et al. 1982 (from memory): texture-permeability.csv
#pragma once

#include <string_view>
#include <vector>

namespace soilhold::factors {

/// 1 very fine granular, 2 fine granular, 3 medium or coarse granular, 4 blocky, platy or massive; commas don't count.
/// @throws std::invalid_argument for other words
int structure_code(std::string_view structure);

/// 1 rapid, 2 moderate to rapid, 3 moderate, 4 slow to moderate, 5 slow, 6 very slow.
/// @throws std::invalid_argument for other words
int permeability_code_of_word(std::string_view permeability);

/// The words that have a code, in the order of their tables.
std::vector<std::string_view> structure_words();
std::vector<std::string_view> permeability_words();

/// @param conductivity_um_s  saturated conductivity, micrometres per second, >= 0
int permeability_code(double conductivity_um_s);

/// @throws std::invalid_argument for a texture without a code
int permeability_code_of_texture(std::string_view texture);

}  // namespace soilhold::factors
