#include "factors/nomograph.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

namespace {

void need_sound(const NomographSoil& soil) {
    const auto share = [](double pct) { return pct >= 0.0 && pct <= 100.0; };
    if (!share(soil.silt_pct) || !share(soil.very_fine_sand_pct) || !share(soil.clay_pct) ||
        !share(soil.organic_matter_pct) || soil.silt_pct + soil.very_fine_sand_pct + soil.clay_pct > 100.0 + 1e-9)
        throw std::invalid_argument(
            "silt, very fine sand, clay and organic matter are shares of the fine earth, 0 to 100 %");
}

double texture_part(const NomographSoil& soil, double coefficient) {
    const double M = particle_size_parameter(soil.silt_pct + soil.very_fine_sand_pct, soil.clay_pct);
    const double a = std::min(soil.organic_matter_pct, largest_organic_matter_pct);
    return coefficient * std::pow(M, 1.14) * (12.0 - a);
}

double equation(const NomographSoil& soil) {
    return nomograph_texture_term_us(soil) + structure_term_us(soil.structure_code) +
           permeability_term_us(soil.permeability_code);
}

}  // namespace

double particle_size_parameter(double silt_and_very_fine_sand_pct, double clay_pct) {
    return silt_and_very_fine_sand_pct * (100.0 - clay_pct);
}

double nomograph_texture_term_us(const NomographSoil& soil) { return texture_part(soil, 2.1e-6); }

double structure_term_us(int structure_code) {
    if (structure_code < 1 || structure_code > 4) throw std::invalid_argument("structure code is 1 to 4");
    return 3.25 * (structure_code - 2) / 100.0;
}

double permeability_term_us(int permeability_code) {
    if (permeability_code < 1 || permeability_code > 6) throw std::invalid_argument("permeability code is 1 to 6");
    return 2.5 * (permeability_code - 3) / 100.0;
}

double nomograph_erodibility_us(const NomographSoil& soil) {
    need_sound(soil);
    return std::max(0.0, equation(soil));
}

double nomograph_erodibility_rounded_si(const NomographSoil& soil) {
    need_sound(soil);
    return std::max(
        0.0, texture_part(soil, 2.8e-7) + 4.3e-3 * (soil.structure_code - 2) + 3.3e-3 * (soil.permeability_code - 3));
}

source::Remarks nomograph_remarks(const NomographSoil& soil) {
    source::Remarks remarks;
    if (soil.organic_matter_pct > largest_organic_matter_pct)
        remarks.push_back(
            {source::Weight::note, "organic-matter-capped",
             fmt::format("Organic matter of {:.1f} % enters the nomograph equation as 4 %, as the method does.",
                         soil.organic_matter_pct)});
    if (soil.silt_pct + soil.very_fine_sand_pct > 70.0)
        remarks.push_back(
            {source::Weight::caution, "silt-above-70",
             fmt::format("Silt and very fine sand make {:.0f} %. Above 70 % the nomograph equation overstates; "
                         "use the survey's K.",
                         soil.silt_pct + soil.very_fine_sand_pct)});
    if (equation(soil) < 0)
        remarks.push_back(
            {source::Weight::caution, "erodibility-negative",
             "The nomograph equation falls below 0 for this soil and is held just above it; use the survey's K."});
    return remarks;
}

}  // namespace soilhold::factors
