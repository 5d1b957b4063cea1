/// LS of a slope that bends, and of each of its parts: where on the slope the soil goes.
///
/// The parts scale with the slope: a longer slope has longer parts, a steeper one steeper parts, each in proportion, so
/// that length and steepness carry the doubt of the whole. Only for slopes on which no soil settles: where a foot
/// slope flattens, the slope ends.
/// @source factors/irregular_slope.h. By Handbook 703 each part with its own exponent; by Handbook 537 as its worksheet
///         does it, the shares with the exponent of the mean steepness, unrounded
#pragma once

#include "factors/slope.h"

namespace soilhold::factors {

/// LS [1] of the ground of part `index` itself. Times its share of the length and summed over the parts it is the
/// slope's LS.
/// @param length_m  of the whole slope, m, > 0
/// @param gradient  mean, rise over run, >= 0
double part_slope_factor(std::size_t index, double length_m, double gradient, const SlopeShape& shape,
                         SlopeMethod method, RillRatio rill_ratio);

/// LS of the whole slope; an empty shape is one even slope.
double profile_slope_factor(double length_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                            RillRatio rill_ratio);

/// LS of a slope that terraces or barriers cut into pieces of `interval_m`: each part by its own steepness over one
/// interval, weighted by its share of the slope.
double cut_slope_factor(double interval_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                        RillRatio rill_ratio);

/// The working of profile_slope_factor, part by part, and of cut_slope_factor.
source::Steps profile_steps(double length_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                            RillRatio rill_ratio);
source::Steps cut_slope_steps(double interval_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                              RillRatio rill_ratio);

}  // namespace soilhold::factors
