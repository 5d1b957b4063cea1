/// The slope factor LS [1]: length and steepness of the ground together, by one handbook's pair of equations.
///
/// The two handbooks are two methods, each with its own L and S; they are never mixed.
#pragma once

#include <vector>

#include "spread/uncertain.h"
#include "units/unit.h"

namespace soilhold::factors {

enum class SlopeMethod { handbook_703, handbook_537 };

/// How much of the loss comes from rills: low (consolidated ground, range), moderate (cropland), high (freshly
/// disturbed); thawing: freshly tilled soil that thaws from above, where nearly all of it does.
enum class RillRatio { low, moderate, high, thawing };

/// "moderate rill ratio", "thawing soil".
const char* words_for(RillRatio rill_ratio);

/// One part of a slope that bends, by its share of the length and its steepness as a multiple of the mean.
struct SlopePart {
    double length_share = 1.0;
    double relative_gradient = 1.0;
    bool operator==(const SlopePart&) const = default;
};

/// A slope's parts from the top down; their shares sum to 1 and so does share times multiple. Empty: one even slope.
using SlopeShape = std::vector<SlopePart>;

struct SlopeDescription {
    spread::Stated length_m;  ///< horizontal, from where flow starts to where soil settles or a channel begins
    spread::Stated gradient;  ///< rise over run
    SlopeMethod method = SlopeMethod::handbook_703;
    RillRatio rill_ratio = RillRatio::moderate;
    SlopeShape shape;  ///< of a slope that bends; `length_m` and `gradient` are then its whole length and mean
};

/// LS of a uniform slope. By Handbook 703 a slope below 15 ft keeps the L of 15 ft; its S goes from the short-slope
/// form at 3 ft to the usual one at 15 ft, straight in logarithms (this project's reading: the printed tables seem to
/// do so, from memory), and never above the usual one.
/// @param length_m  horizontal slope length, m, > 0
/// @param gradient  rise over run, >= 0
double slope_factor(double length_m, double gradient, SlopeMethod method, RillRatio rill_ratio);

/// The same, step by step; its last value is slope_factor's. Not for the draws: it writes text.
source::Steps slope_factor_steps(double length_m, double gradient, SlopeMethod method, RillRatio rill_ratio);

/// Where Handbook 703's form for short slopes begins to act, and where it acts alone.
inline constexpr double short_slope_m = 15.0 * units::metre_per_foot;
inline constexpr double shortest_slope_m = 3.0 * units::metre_per_foot;

/// "Handbook 703", "Handbook 537".
const char* words_for(SlopeMethod method);

/// What a careful reader says of a slope outside the plots behind the equations (length over 400 ft, under 15 ft,
/// steepness over 35 %, ...).
source::Remarks slope_remarks(const SlopeDescription& slope);

}  // namespace soilhold::factors
