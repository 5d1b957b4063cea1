#include "factors/slope_length.h"

#include <cmath>

#include "units/unit.h"

namespace soilhold::factors {

double sine_of(double gradient) { return gradient / std::sqrt(1.0 + gradient * gradient); }

double length_exponent_537(double gradient) {
    // Compared in percent with a hair of room: 0.05 read from "5 %" must count as 5 %.
    const double percent = 100.0 * gradient + 1e-9;
    return percent >= 5.0 ? 0.5 : percent >= 3.5 ? 0.4 : percent >= 1.0 ? 0.3 : 0.2;
}

double length_exponent_703(double gradient, RillRatio rill_ratio) {
    if (rill_ratio == RillRatio::thawing) return 0.5;
    const double s = sine_of(gradient);
    double b = (s / 0.0896) / (3.0 * std::pow(s, 0.8) + 0.56);
    if (rill_ratio == RillRatio::low) b *= 0.5;
    if (rill_ratio == RillRatio::high) b *= 2.0;
    return b / (1.0 + b);
}

double slope_length_factor(double length_m, double exponent) {
    constexpr double unit_plot_m = 72.6 * units::metre_per_foot;
    return std::pow(length_m / unit_plot_m, exponent);
}

}  // namespace soilhold::factors
