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
    const double usual = usual_steepness_factor_703(gradient, rill_ratio);
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
    return slope_length_factor(length_m, length_exponent_703(gradient, rill_ratio)) *
           usual_steepness_factor_703(gradient, rill_ratio);
}

const char* words_for(RillRatio rill_ratio) {
    switch (rill_ratio) {
        case RillRatio::low:
            return "low rill ratio";
        case RillRatio::high:
            return "high rill ratio";
        case RillRatio::thawing:
            return "thawing soil";
        case RillRatio::moderate:
            break;
    }
    return "moderate rill ratio";
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
    double steepest = 0;
    for (std::size_t i = 0; i < slope.shape.size(); ++i) {
        const double part_pct = percent * slope.shape[i].relative_gradient;
        if (part_pct < steepest / 2) {
            remarks.push_back(
                {source::Weight::caution, "slope-settles",
                 fmt::format("Part {} of the slope ({:.1f} %) is less than half as steep as the ground above it "
                             "({:.1f} %): soil may settle there. The equation has no settling; if it does, the slope "
                             "ends where it begins.",
                             i + 1, part_pct, steepest)});
            break;
        }
        steepest = std::max(steepest, part_pct);
    }
    if (slope.rill_ratio == RillRatio::thawing)
        remarks.push_back({source::Weight::caution, "slope-thawing",
                           "Slope by the form for freshly tilled, thawing soil (from memory). Meltwater is not in R "
                           "unless the R of such a region, with its melt, was given."});
    return remarks;
}

}  // namespace soilhold::factors
