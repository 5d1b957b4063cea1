#include "factors/slope_steepness.h"

#include <cmath>

#include "factors/slope_length.h"

namespace soilhold::factors {

namespace {

// "9 %" read as 0.09 must fall on the upper piece in spite of rounding.
bool from_nine_percent(double gradient) { return gradient >= 0.09 - 1e-12; }

}  // namespace

double steepness_factor_537(double gradient) {
    const double s = sine_of(gradient);
    return 65.41 * s * s + 4.56 * s + 0.065;
}

double early_steepness_factor(double sine) { return (430.0 * sine * sine + 30.0 * sine + 0.43) / 6.613; }

double steepness_factor_703(double gradient) {
    const double s = sine_of(gradient);
    return from_nine_percent(gradient) ? 16.8 * s - 0.50 : 10.8 * s + 0.03;
}

double short_slope_steepness_factor_703(double gradient) { return 3.0 * std::pow(sine_of(gradient), 0.8) + 0.56; }

double thawing_steepness_factor_703(double gradient) {
    const double s = sine_of(gradient);
    return from_nine_percent(gradient) ? std::pow(s / 0.0896, 0.6) : 10.8 * s + 0.03;
}

double usual_steepness_factor_703(double gradient, RillRatio rill_ratio) {
    return rill_ratio == RillRatio::thawing ? thawing_steepness_factor_703(gradient) : steepness_factor_703(gradient);
}

}  // namespace soilhold::factors
