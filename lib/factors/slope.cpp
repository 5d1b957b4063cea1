#include "factors/slope.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

/// Handbook 703 below 15 ft: L stays that of 15 ft. S is the short-slope form up to 3 ft and reaches the usual form at
/// 15 ft along a straight line of logarithms, so that LS has no step there; on gentle slopes, where the short form lies
/// above the usual one, it stays the usual one, since a shorter slope can't lose more.
double short_slope_703(double length_m, double gradient, RillRatio rill_ratio) {
    const double L = slope_length_factor(short_slope_m, length_exponent_703(gradient, rill_ratio));
    const double usual = steepness_factor_703(gradient);
    const double least = std::min(short_slope_steepness_factor_703(gradient), usual);
    const double share =
        std::log(std::max(length_m, shortest_slope_m) / shortest_slope_m) / std::log(short_slope_m / shortest_slope_m);
    return L * least * std::pow(usual / least, share);
}

}  // namespace

double slope_factor(double length_m, double gradient, SlopeMethod method, RillRatio rill_ratio) {
    if (method == SlopeMethod::handbook_537)
        return slope_length_factor(length_m, length_exponent_537(gradient)) * steepness_factor_537(gradient);
    if (length_m < short_slope_m) return short_slope_703(length_m, gradient, rill_ratio);
    return slope_length_factor(length_m, length_exponent_703(gradient, rill_ratio)) * steepness_factor_703(gradient);
}

const char* words_for(SlopeMethod method) {
    return method == SlopeMethod::handbook_703 ? "Handbook 703" : "Handbook 537";
}

source::Remarks slope_remarks(const SlopeDescription& slope) {
    source::Remarks remarks;
    const double feet = slope.length_m.value / units::metre_per_foot;
    const double percent = 100.0 * slope.gradient.value;
    if (feet > 400.0)
        remarks.push_back(
            {source::Weight::caution, "slope-long",
             fmt::format("A slope of {:.0f} ft ({:.0f} m) is longer than most: walk it. Does soil settle, or a "
                         "channel start, sooner than 400 ft?",
                         feet, slope.length_m.value)});
    if (feet < 15.0)
        remarks.push_back(
            {source::Weight::caution, "slope-short",
             fmt::format("A slope of {:.0f} ft ({:.1f} m) is shorter than the plots behind the equation (15 ft).", feet,
                         slope.length_m.value)});
    if (percent > 35.0)
        remarks.push_back({source::Weight::caution, "slope-steep",
                           fmt::format("{:.0f} % is steeper than the plots behind the equation.", percent)});
    return remarks;
}

}  // namespace soilhold::factors
