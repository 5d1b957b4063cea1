#include "factors/slope_profile.h"

#include <cmath>
#include <string>

#include "factors/irregular_slope.h"
#include "factors/slope_length.h"
#include "factors/slope_steepness.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

/// How far down the slope a part begins, as a share of its length.
double begin_of(std::size_t index, const SlopeShape& shape) {
    double begin = 0;
    for (std::size_t i = 0; i < index; ++i) begin += shape[i].length_share;
    return begin;
}

/// What part of a slope's loss comes from the stretch between two shares of its length, if it were even.
double share_537(double begin, double end, double exponent) {
    return std::pow(end, exponent + 1) - std::pow(begin, exponent + 1);
}

std::string sum_of_parts(const std::vector<double>& LS, const SlopeShape& shape) {
    std::string text;
    for (std::size_t i = 0; i < LS.size(); ++i)
        text += (i == 0 ? "" : " + ") + in_working(shape[i].length_share) + " x " + in_working(LS[i]);
    return text;
}

source::Step part_step(std::size_t index, double gradient, const SlopePart& part, std::string equation,
                       std::string working, double value, SlopeMethod method) {
    source::Step step;
    const std::string number = std::to_string(index + 1);
    step.symbol = "LS" + number;
    step.words = "part " + number + " from the top, " + in_working(100 * gradient * part.relative_gradient) +
                 " % over " + in_working(100 * part.length_share) + " % of the slope";
    step.equation = std::move(equation);
    step.working = std::move(working);
    step.value = value;
    step.unit = "1";
    step.origin = source::origin_of("irregular-slopes");
    if (method == SlopeMethod::handbook_703) step.origin.from += ", with the factors of Handbook 703";
    return step;
}

source::Step total_step(const std::vector<double>& LS, const SlopeShape& shape, double total) {
    return {"LS",
            "slope factor: the parts by their share of the length",
            "sum share LSj",
            sum_of_parts(LS, shape),
            total,
            "1",
            source::origin_of("irregular-slopes")};
}

}  // namespace

double part_slope_factor(std::size_t index, double length_m, double gradient, const SlopeShape& shape,
                         SlopeMethod method, RillRatio rill_ratio) {
    const SlopePart& part = shape[index];
    const double begin = begin_of(index, shape), end = begin + part.length_share;
    const double steepness = gradient * part.relative_gradient;
    if (method == SlopeMethod::handbook_703)
        return segment_slope_factor_703(begin * length_m, end * length_m, steepness, rill_ratio);
    return share_537(begin, end, length_exponent_537(gradient)) / part.length_share *
           slope_factor(length_m, steepness, method, rill_ratio);
}

double profile_slope_factor(double length_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                            RillRatio rill_ratio) {
    if (shape.empty()) return slope_factor(length_m, gradient, method, rill_ratio);
    double LS = 0;
    for (std::size_t i = 0; i < shape.size(); ++i)
        LS += shape[i].length_share * part_slope_factor(i, length_m, gradient, shape, method, rill_ratio);
    return LS;
}

double cut_slope_factor(double interval_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                        RillRatio rill_ratio) {
    if (shape.empty()) return slope_factor(interval_m, gradient, method, rill_ratio);
    double LS = 0;
    for (const SlopePart& part : shape)
        LS += part.length_share * slope_factor(interval_m, gradient * part.relative_gradient, method, rill_ratio);
    return LS;
}

source::Steps profile_steps(double length_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                            RillRatio rill_ratio) {
    if (shape.empty()) return slope_factor_steps(length_m, gradient, method, rill_ratio);
    source::Steps steps;
    std::vector<double> LS;
    const std::string unit_plot = in_working(72.6 * units::metre_per_foot);
    for (std::size_t i = 0; i < shape.size(); ++i) {
        LS.push_back(part_slope_factor(i, length_m, gradient, shape, method, rill_ratio));
        const double begin = begin_of(i, shape), end = begin + shape[i].length_share;
        const double steepness = gradient * shape[i].relative_gradient;
        if (method == SlopeMethod::handbook_703) {
            const double n = length_exponent_703(steepness, rill_ratio);
            const std::string power = "^" + in_working(n + 1);
            const std::string from = in_working(begin * length_m), to = in_working(end * length_m);
            const std::string S = in_working(usual_steepness_factor_703(steepness, rill_ratio));
            steps.push_back(part_step(i, gradient, shape[i],
                                      "S (to^(n + 1) - from^(n + 1)) / ((to - from) unit plot^n)",
                                      S + " x (" + to + power + " - " + from + power + ") / ((" + to + " - " + from +
                                          ") x " + unit_plot + "^" + in_working(n) + ")",
                                      LS[i], method));
        } else {
            const double n = length_exponent_537(gradient);
            const std::string power = "^" + in_working(n + 1);
            steps.push_back(part_step(
                i, gradient, shape[i], "LS of the whole length x (to^(n + 1) - from^(n + 1)) / (to - from)",
                in_working(slope_factor(length_m, steepness, method, rill_ratio)) + " x (" + in_working(end) + power +
                    " - " + in_working(begin) + power + ") / (" + in_working(end) + " - " + in_working(begin) + ")",
                LS[i], method));
        }
    }
    steps.push_back(total_step(LS, shape, profile_slope_factor(length_m, gradient, shape, method, rill_ratio)));
    return steps;
}

source::Steps cut_slope_steps(double interval_m, double gradient, const SlopeShape& shape, SlopeMethod method,
                              RillRatio rill_ratio) {
    if (shape.empty()) return slope_factor_steps(interval_m, gradient, method, rill_ratio);
    source::Steps steps;
    std::vector<double> LS;
    for (const SlopePart& part : shape) {
        const double steepness = gradient * part.relative_gradient;
        const source::Steps own = slope_factor_steps(interval_m, steepness, method, rill_ratio);
        steps.insert(steps.end(), own.begin(), own.end());
        LS.push_back(own.back().value);
    }
    steps.push_back(total_step(LS, shape, cut_slope_factor(interval_m, gradient, shape, method, rill_ratio)));
    return steps;
}

}  // namespace soilhold::factors
