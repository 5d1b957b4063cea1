/// How K came about by each method, step by step, for a reader with a calculator.
///
/// @source each method's own header
#pragma once

#include <optional>

#include "factors/aggregate_erodibility.h"
#include "factors/nomograph.h"
#include "source/step.h"

namespace soilhold::factors {

/// From K in US units to SI: the last line of most workings.
source::Step step_to_si(double K_us, double K_si);

/// @param sum_us  of the three terms, before it is held at `least_us`
source::Steps nomograph_steps(const NomographSoil& soil, double sum_us, double least_us,
                              const source::Origin& of_texture);

/// Sand, silt and clay in % of the fine earth.
struct TextureShares {
    double sand_pct = 0.0, silt_pct = 0.0, clay_pct = 0.0;
};

source::Steps diameter_steps(const TextureShares& texture, double K_si, const source::Origin& of_texture);
source::Steps carbon_steps(const TextureShares& texture, double carbon_pct, std::optional<double> matter_pct,
                           double K_us, double K_si, const source::Origin& of_texture);
source::Steps volcanic_steps(const VolcanicSoil& soil, double K_us, double K_si, const source::Origin& of_texture);
source::Steps midwest_steps(const MidwestSoil& soil, double K_us, double K_si, const source::Origin& of_texture);

}  // namespace soilhold::factors
