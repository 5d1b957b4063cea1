#include "factors/erodibility.h"

#include <algorithm>
#include <stdexcept>

#include "factors/nomograph.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

// The least K of the survey's classes (read in the National Soil Survey Handbook 618.59): a product needs some K.
constexpr double least_erodibility_us = 0.02;

}  // namespace

spread::Uncertain erodibility(const SoilDescription& soil) {
    if (soil.erodibility) return spread::with_spread(*soil.erodibility, "erodibility-survey");
    if (!soil.silt_pct || !soil.very_fine_sand_pct || !soil.clay_pct || !soil.organic_matter_pct ||
        !soil.structure_code || !soil.permeability_code)
        throw std::invalid_argument("no erodibility, and not the six values the nomograph equation needs");
    const NomographSoil nomograph{*soil.silt_pct,           *soil.very_fine_sand_pct, *soil.clay_pct,
                                  *soil.organic_matter_pct, *soil.structure_code,     *soil.permeability_code};
    spread::Stated stated;
    stated.value = std::max(least_erodibility_us, nomograph_erodibility_us(nomograph)) * units::erodibility_si_per_us;
    stated.origin = source::origin_of("nomograph");
    stated.origin.from += "; texture: " + soil.texture_origin.from;
    spread::Uncertain result = spread::with_spread(stated, "erodibility-nomograph");
    result.remarks = nomograph_remarks(nomograph);
    return result;
}

}  // namespace soilhold::factors
