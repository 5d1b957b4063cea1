/// LS of a slope that steepens or flattens downhill, from segments; only for profiles on which no soil settles.
///
/// Each segment's LS is that of its steepness over the FULL length, weighted by the share of loss that its place on the
/// slope carries. A convex slope loses more than a uniform one of its mean steepness, a concave one less.
/// @source Foster & Wischmeier 1974, Trans. ASAE 17:305-309; AH 537 (1978) p. 16-18 and Table 4 (from memory,
/// recomputed)
#pragma once

#include <span>

#include "factors/slope.h"

namespace soilhold::factors {

/// Share of the loss from segment j of N equally long ones: [j^(m+1) - (j-1)^(m+1)] / N^(m+1).
/// @param exponent  m, 0 to 1
/// @throws std::invalid_argument unless 1 <= j <= N
double segment_loss_share(int segment, int segments, double exponent);

/// LS of equally long segments by Handbook 537, unrounded. @param gradients  rise over run, from the top down
/// @param exponent  one m for all segments, as the handbook's worksheet has it
double irregular_slope_factor_537(double length_m, std::span<const double> gradients, double exponent);

/// The handbook's worksheet as done by hand: LS to three significant digits, shares to two decimals, m that of the mean
/// steepness; each term times its `weights` (K by segment) or 1 when there are none. Agrees with the printed example.
double irregular_slope_worksheet_537(double length_m, std::span<const double> gradients,
                                     std::span<const double> weights = {});

/// One segment of a profile with unequal lengths.
struct SlopeSegment {
    double to_m = 0.0;      ///< distance of its lower end from the top, m
    double gradient = 0.0;  ///< rise over run
};

/// LS of one segment's own ground, from the distances of its ends from the top of the slope, by Handbook 703:
/// S (to^(m+1) - from^(m+1)) / ((to - from) u^m), u the unit plot.
double segment_slope_factor_703(double from_m, double to_m, double gradient, RillRatio rill_ratio);

/// LS = sum S_j (x_j^(m_j + 1) - x_(j-1)^(m_j + 1)) / (x_e u^m_j), u the unit plot, by Handbook 703.
double irregular_slope_factor_703(std::span<const SlopeSegment> profile, RillRatio rill_ratio = RillRatio::moderate);

}  // namespace soilhold::factors
