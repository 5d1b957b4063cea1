/// The structure and permeability codes of the nomograph, from what a survey says.
///
/// The structure code goes by size of granule, not by how well it stands in water; permeability code 6 is the slowest,
/// and the slowest layer within 50 cm rules.
/// @source National Soil Survey Handbook 618.59 D(4) (read): data/reference/structure-codes.csv,
/// permeability-codes.csv.
///         By texture: AH 703 ch. 3 after Rawls et al. 1982 (from memory): texture-permeability.csv
#pragma once

#include <string_view>

namespace soilhold::factors {

/// 1 very fine granular, 2 fine granular, 3 medium or coarse granular, 4 blocky platy or massive.
/// @throws std::invalid_argument for other words
int structure_code(std::string_view structure);

/// @param conductivity_um_s  saturated conductivity, micrometres per second, >= 0
int permeability_code(double conductivity_um_s);

/// @throws std::invalid_argument for a texture without a code
int permeability_code_of_texture(std::string_view texture);

}  // namespace soilhold::factors
