/// Soil erodibility K [t ha h/(ha MJ mm)]: from the survey, or by the nomograph equation.
#pragma once

#include <optional>
#include <string>

#include "spread/uncertain.h"

namespace soilhold::factors {

/// What was written about the soil's erodibility and texture. `erodibility` wins over the texture when both are there.
struct SoilDescription {
    std::optional<spread::Stated> erodibility;                               ///< K given, SI
    std::optional<double> sand_pct, silt_pct, very_fine_sand_pct, clay_pct;  ///< very fine sand is part of sand
    std::optional<double> organic_matter_pct;
    std::optional<int> structure_code;     ///< 1..4
    std::optional<int> permeability_code;  ///< 1..6, 6 slowest
    source::Origin texture_origin;
};

/// K of a soil, by the method its description allows.
/// @throws std::invalid_argument when neither K nor the six nomograph inputs are there.
spread::Uncertain erodibility(const SoilDescription& soil);

}  // namespace soilhold::factors
