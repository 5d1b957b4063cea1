#include "factors/irregular_slope.h"

#include <cmath>
#include <stdexcept>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

double to_three_digits(double value) {
    const double step = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / step) * step;
}

void need_profile(double length_m, std::span<const double> gradients) {
    if (!(length_m > 0)) throw std::invalid_argument("the length of a slope must be above 0");
    if (gradients.empty()) throw std::invalid_argument("an irregular slope needs at least one segment");
    for (const double g : gradients)
        if (!(g > 0)) throw std::invalid_argument("each segment must fall: on level ground soil settles");
}

double uniform_537(double length_m, double gradient, double exponent) {
    return slope_length_factor(length_m, exponent) * steepness_factor_537(gradient);
}

}  // namespace

double segment_loss_share(int segment, int segments, double exponent) {
    if (segment < 1 || segment > segments) throw std::invalid_argument("a segment's number runs from 1 to their count");
    if (!(exponent >= 0 && exponent <= 1)) throw std::invalid_argument("the length exponent m lies from 0 to 1");
    const double e = exponent + 1.0;
    return (std::pow(segment, e) - std::pow(segment - 1, e)) / std::pow(segments, e);
}

double irregular_slope_factor_537(double length_m, std::span<const double> gradients, double exponent) {
    need_profile(length_m, gradients);
    const int count = static_cast<int>(gradients.size());
    double sum = 0;
    for (int j = 1; j <= count; ++j)
        sum += segment_loss_share(j, count, exponent) *
               uniform_537(length_m, gradients[static_cast<std::size_t>(j - 1)], exponent);
    return sum;
}

double irregular_slope_worksheet_537(double length_m, std::span<const double> gradients,
                                     std::span<const double> weights) {
    need_profile(length_m, gradients);
    if (!weights.empty() && weights.size() != gradients.size())
        throw std::invalid_argument("there must be one K for each segment");
    const int count = static_cast<int>(gradients.size());
    double mean = 0;
    for (const double g : gradients) mean += g / count;
    const double m = length_exponent_537(mean);
    double sum = 0;
    for (int j = 1; j <= count; ++j) {
        const auto at = static_cast<std::size_t>(j - 1);
        const double share = std::round(100.0 * segment_loss_share(j, count, m)) / 100.0;
        const double LS = to_three_digits(uniform_537(length_m, gradients[at], length_exponent_537(gradients[at])));
        sum += share * LS * (weights.empty() ? 1.0 : weights[at]);
    }
    return sum;
}

double segment_slope_factor_703(double from_m, double to_m, double gradient, RillRatio rill_ratio) {
    const double unit_plot_m = 72.6 * units::metre_per_foot;
    const double m = length_exponent_703(gradient, rill_ratio);
    return usual_steepness_factor_703(gradient, rill_ratio) * (std::pow(to_m, m + 1) - std::pow(from_m, m + 1)) /
           ((to_m - from_m) * std::pow(unit_plot_m, m));
}

double irregular_slope_factor_703(std::span<const SlopeSegment> profile, RillRatio rill_ratio) {
    if (profile.empty()) throw std::invalid_argument("an irregular slope needs at least one segment");
    double sum = 0, from = 0;
    for (const SlopeSegment& segment : profile) {
        if (!(segment.to_m > from)) throw std::invalid_argument("the ends of the segments must go downhill");
        if (!(segment.gradient > 0))
            throw std::invalid_argument("each segment must fall: on level ground soil settles");
        sum += segment_slope_factor_703(from, segment.to_m, segment.gradient, rill_ratio) * (segment.to_m - from);
        from = segment.to_m;
    }
    return sum / from;
}

}  // namespace soilhold::factors
