/// The slope factor LS [1]: length and steepness of the ground together, by one handbook's pair of equations.
///
/// The two handbooks are two methods, each with its own L and S; they are never mixed.
#pragma once

#include "spread/uncertain.h"

namespace soilhold::factors {

enum class SlopeMethod { handbook_703, handbook_537 };

/// How much of the loss comes from rills: low (consolidated ground, range), moderate (cropland), high (freshly
/// disturbed).
enum class RillRatio { low, moderate, high };

struct SlopeDescription {
    spread::Stated length_m;  ///< horizontal, from where flow starts to where soil settles or a channel begins
    spread::Stated gradient;  ///< rise over run
    SlopeMethod method = SlopeMethod::handbook_703;
    RillRatio rill_ratio = RillRatio::moderate;
};

/// LS of a uniform slope.
/// @param length_m  horizontal slope length, m, > 0
/// @param gradient  rise over run, >= 0
double slope_factor(double length_m, double gradient, SlopeMethod method, RillRatio rill_ratio);

/// "Handbook 703", "Handbook 537".
const char* words_for(SlopeMethod method);

/// What a careful reader says of a slope outside the plots behind the equations (length over 400 ft, under 15 ft,
/// steepness over 35 %, ...).
source::Remarks slope_remarks(const SlopeDescription& slope);

}  // namespace soilhold::factors
