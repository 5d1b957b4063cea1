#include "factors/slope.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

/// Steps of one handbook, all under one source.
struct Working {
    source::Origin origin;
    source::Steps steps;
    /// The step before was not read where the rest of the method was.
    void less_sure(source::Standing standing) { steps.back().origin.standing = standing; }
    double add(std::string symbol, std::string words, std::string equation, std::string working, double value) {
        steps.push_back(
            {std::move(symbol), std::move(words), std::move(equation), std::move(working), value, "1", origin});
        return value;
    }
};

double length_factor(Working& to, double length_m, double exponent, const std::string& why) {
    const double unit_plot_m = 72.6 * units::metre_per_foot;
    return to.add("L",
                  "slope length factor" + why + "; the unit plot is 72.6 ft, " + in_working(unit_plot_m) + " m, long",
                  "(length / unit plot)^n",
                  "(" + in_working(length_m) + " / " + in_working(unit_plot_m) + ")^" + in_working(exponent),
                  slope_length_factor(length_m, exponent));
}

double exponent_703(Working& to, double gradient, RillRatio rill_ratio) {
    const std::string s = in_working(sine_of(gradient));
    const double x = length_exponent_703(gradient, rill_ratio);
    if (rill_ratio == RillRatio::thawing) {
        to.add("n", "exponent of the slope length, thawing soil", "", "", x);
        to.less_sure(source::Standing::from_memory);
        return x;
    }
    const double b = x / (1.0 - x);
    const bool low = rill_ratio == RillRatio::low, high = rill_ratio == RillRatio::high;
    const std::string times = low ? "0.5 x " : high ? "2 x " : "";
    to.add("beta",
           low    ? "rill over interrill loss, halved for few rills"
           : high ? "rill over interrill loss, doubled for many rills"
                  : "rill over interrill loss, moderate",
           times + "(sin t / 0.0896) / (3 sin t^0.8 + 0.56)",
           times + "(" + s + " / 0.0896) / (3 x " + s + "^0.8 + 0.56)", b);
    if (low || high) to.less_sure(source::Standing::from_memory);
    return to.add("n", "exponent of the slope length", "beta / (1 + beta)",
                  in_working(b) + " / (1 + " + in_working(b) + ")", x);
}

double usual_steepness_703(Working& to, double gradient, RillRatio rill_ratio) {
    const std::string s = in_working(sine_of(gradient));
    const double S = usual_steepness_factor_703(gradient, rill_ratio);
    if (rill_ratio == RillRatio::thawing && gradient >= 0.09 - 1e-12) {
        to.add("S", "steepness factor of thawing soil, 9 % and steeper", "(sin t / 0.0896)^0.6",
               "(" + s + " / 0.0896)^0.6", S);
        to.less_sure(source::Standing::from_memory);
        return S;
    }
    if (gradient >= 0.09 - 1e-12)
        return to.add("S", "slope steepness factor, 9 % and steeper", "16.8 sin t - 0.50", "16.8 x " + s + " - 0.50",
                      S);
    return to.add("S", "slope steepness factor below 9 %", "10.8 sin t + 0.03", "10.8 x " + s + " + 0.03", S);
}

double short_steepness_703(Working& to, double length_m, double gradient, double usual) {
    const std::string s = in_working(sine_of(gradient));
    const double least = to.add("S3", "of 3 ft and less, never above S", "min(S, 3 sin t^0.8 + 0.56)",
                                "min(" + in_working(usual) + ", 3 x " + s + "^0.8 + 0.56)",
                                std::min(short_slope_steepness_factor_703(gradient), usual));
    const double length = std::max(length_m, shortest_slope_m);
    // Joining the two forms along the logarithm of the length is this project's.
    const std::string from = in_working(shortest_slope_m);
    const double share =
        to.add("share", "how far the length is from 3 to 15 ft", "ln(length / 3 ft) / ln(15 ft / 3 ft)",
               "ln(" + in_working(length) + " / " + from + ") / ln(" + in_working(short_slope_m) + " / " + from + ")",
               std::log(length / shortest_slope_m) / std::log(short_slope_m / shortest_slope_m));
    to.less_sure(source::Standing::our_assumption);
    const double S =
        to.add("S", "between the two", "S3 (S / S3)^share",
               in_working(least) + " x (" + in_working(usual) + " / " + in_working(least) + ")^" + in_working(share),
               least * std::pow(usual / least, share));
    to.less_sure(source::Standing::our_assumption);
    return S;
}

}  // namespace

source::Steps slope_factor_steps(double length_m, double gradient, SlopeMethod method, RillRatio rill_ratio) {
    const bool newer = method == SlopeMethod::handbook_703;
    Working to{source::origin_of(newer ? "ls-ah703" : "ls-ah537"), {}};
    const std::string g = in_working(gradient);
    to.add("sin t", "sine of the slope angle t", "g / sqrt(1 + g^2)", g + " / sqrt(1 + " + g + "^2)",
           sine_of(gradient));
    const std::string s = in_working(sine_of(gradient));
    double L = 0, S = 0;
    if (!newer) {
        const double x =
            to.add("n", "exponent of the slope length, by class of steepness", "", "", length_exponent_537(gradient));
        L = length_factor(to, length_m, x, "");
        S = to.add("S", "slope steepness factor", "65.41 sin t^2 + 4.56 sin t + 0.065",
                   "65.41 x " + s + "^2 + 4.56 x " + s + " + 0.065", steepness_factor_537(gradient));
    } else {
        const double x = exponent_703(to, gradient, rill_ratio);
        const bool is_short = length_m < short_slope_m;
        L = length_factor(to, is_short ? short_slope_m : length_m, x, is_short ? ", that of 15 ft" : "");
        S = usual_steepness_703(to, gradient, rill_ratio);
        if (is_short) S = short_steepness_703(to, length_m, gradient, S);
    }
    to.add("LS", "slope factor", "L S", in_working(L) + " x " + in_working(S),
           slope_factor(length_m, gradient, method, rill_ratio));
    return std::move(to.steps);
}

}  // namespace soilhold::factors
