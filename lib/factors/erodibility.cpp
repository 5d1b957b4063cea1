#include "factors/erodibility.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "factors/nomograph.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

// The least K of the survey's classes (read in the National Soil Survey Handbook 618.59): a product needs some K.
constexpr double least_erodibility_us = 0.02;

source::Steps nomograph_steps(const NomographSoil& soil, double sum_us, const source::Origin& of_texture) {
    using source::in_working;
    const source::Origin nomograph = source::origin_of("nomograph");
    const std::string silt = in_working(soil.silt_pct), fine = in_working(soil.very_fine_sand_pct);
    const double M = particle_size_parameter(soil.silt_pct + soil.very_fine_sand_pct, soil.clay_pct);
    const double a = std::min(soil.organic_matter_pct, largest_organic_matter_pct);
    const double texture = nomograph_texture_term_us(soil);
    const double structure = structure_term_us(soil.structure_code);
    const double permeability = permeability_term_us(soil.permeability_code);
    const double K_us = std::max(least_erodibility_us, sum_us);
    const std::string sum = in_working(texture) + " + " + in_working(structure) + " + " + in_working(permeability);
    source::Steps steps;
    steps.push_back({"M", "silt and very fine sand (vfs), times what is not clay, in %", "(silt + vfs) (100 - clay)",
                     "(" + silt + " + " + fine + ") x (100 - " + in_working(soil.clay_pct) + ")", M, "1", of_texture});
    steps.push_back({"a", a < soil.organic_matter_pct ? "organic matter in %, counted up to 4" : "organic matter in %",
                     "", a < soil.organic_matter_pct ? "min(4, " + in_working(soil.organic_matter_pct) + ")" : "", a,
                     "%", of_texture});
    steps.push_back({"b", "structure code, 1 to 4", "", "", double(soil.structure_code), "1", of_texture});
    steps.push_back({"c", "permeability code, 1 to 6", "", "", double(soil.permeability_code), "1", of_texture});
    steps.push_back({"K1", "texture and organic matter", "0.0000021 M^1.14 (12 - a)",
                     "0.0000021 x " + in_working(M) + "^1.14 x (12 - " + in_working(a) + ")", texture, "US K",
                     nomograph});
    steps.push_back({"K2", "structure", "3.25 (b - 2) / 100",
                     "3.25 x (" + std::to_string(soil.structure_code) + " - 2) / 100", structure, "US K", nomograph});
    steps.push_back({"K3", "permeability", "2.5 (c - 3) / 100",
                     "2.5 x (" + std::to_string(soil.permeability_code) + " - 3) / 100", permeability, "US K",
                     nomograph});
    steps.push_back({"K",
                     K_us > sum_us ? "soil erodibility, in US units, held at the least K of the survey's classes"
                                   : "soil erodibility, in US units",
                     "K1 + K2 + K3", K_us > sum_us ? "max(0.02, " + sum + ")" : sum, K_us, "US K", nomograph});
    steps.push_back({"K", "soil erodibility, in SI units", "",
                     in_working(K_us) + " x " + in_working(units::erodibility_si_per_us),
                     K_us * units::erodibility_si_per_us, "t ha h/(ha MJ mm)", source::origin_of("unit-conversions")});
    return steps;
}

}  // namespace

spread::Uncertain erodibility(const SoilDescription& soil) {
    if (soil.erodibility) return spread::with_spread(*soil.erodibility, "erodibility-survey");
    if (!soil.silt_pct || !soil.very_fine_sand_pct || !soil.clay_pct || !soil.organic_matter_pct ||
        !soil.structure_code || !soil.permeability_code)
        throw std::invalid_argument("no erodibility, and not the six values the nomograph equation needs");
    const NomographSoil nomograph{*soil.silt_pct,           *soil.very_fine_sand_pct, *soil.clay_pct,
                                  *soil.organic_matter_pct, *soil.structure_code,     *soil.permeability_code};
    spread::Stated stated;
    const double sum_us = nomograph_erodibility_us(nomograph);
    stated.value = std::max(least_erodibility_us, sum_us) * units::erodibility_si_per_us;
    stated.origin = source::origin_of("nomograph");
    stated.origin.from += "; texture: " + soil.texture_origin.from;
    spread::Uncertain result =
        spread::with_spread(stated, "erodibility-nomograph", nomograph_steps(nomograph, sum_us, soil.texture_origin));
    result.remarks = nomograph_remarks(nomograph);
    return result;
}

}  // namespace soilhold::factors
