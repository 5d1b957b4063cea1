#include "loss/steps.h"

#include <string>
#include <utility>

#include "factors/slope_profile.h"
#include "units/unit.h"

namespace soilhold::loss {

namespace {

using source::in_working;

constexpr const char* loss_unit = "t/(ha yr)";

source::Origin arithmetic() { return source::origin_of("loss-arithmetic"); }

void append(source::Steps& to, const source::Steps& from) { to.insert(to.end(), from.begin(), from.end()); }

std::string product(const std::vector<double>& values) {
    std::string text;
    for (const double value : values) text += (text.empty() ? "" : " x ") + in_working(value);
    return text;
}

/// A in SI units, and again in US units, so that either reader can follow.
void add_products(source::Steps& to, const std::string& symbol, double R, double K, const std::vector<double>& rest,
                  double A) {
    std::vector<double> factors = {R, K};
    factors.insert(factors.end(), rest.begin(), rest.end());
    const source::Origin origin = source::origin_of("loss-equation");
    const std::string equation = "R K m LS C P";
    to.push_back({symbol, "loss in a year, in SI units", equation, product(factors), A, loss_unit, origin});
    factors[0] = R / units::erosivity_si_per_us;
    factors[1] = K / units::erodibility_si_per_us;
    to.push_back(
        {symbol, "the same in US units", equation, product(factors), A / units::t_ha_per_ton_acre, "US A", origin});
}

/// What leaves the field, beside what moves on it.
void add_leaving(source::Steps& to, const std::optional<Leaving>& leaving, double A, std::size_t draws) {
    if (!leaving) return;
    append(to, leaving->share.steps);
    to.push_back({"leaves", "soil that leaves the field in a year", "A passes",
                  in_working(A) + " x " + in_working(leaving->share.value.central), leaving->loss.central, loss_unit,
                  arithmetic()});
    to.push_back(counted_step(leaving->loss, loss_unit, draws));
}

}  // namespace

source::Step counted_step(const spread::Interval& value, const std::string& unit, std::size_t draws,
                          const std::string& of) {
    source::Step step;
    step.words = "the middle 80 %, counted from " + std::to_string(draws) + " draws of " + of + " within their ranges";
    step.value = value.low;
    step.upper = value.high;
    step.unit = unit;
    step.origin = source::origin_of("sobol-draws");
    return step;
}

source::Steps factor_steps(const spread::Uncertain& input, const std::string& unit) {
    source::Steps steps = input.steps;
    if (auto middle = spread::middle_step(input, unit)) steps.push_back(std::move(*middle));
    return steps;
}

source::Steps slope_steps(const FieldInputs& inputs, const PracticeInputs& practice, const FactorValue& LS,
                          std::size_t draws) {
    source::Steps steps = practice.length_m.steps;
    append(steps, practice.gradient.steps);
    const auto working = practice.cut ? factors::cut_slope_steps : factors::profile_steps;
    append(steps, working(practice.length_m.central, practice.gradient.central, inputs.shape, inputs.method,
                          inputs.rill_ratio));
    steps.push_back(counted_step(LS.value, "1", draws, "length and steepness"));
    return steps;
}

source::Steps loss_steps(const FieldEstimate& estimate, std::size_t draws) {
    const auto value = [&](const char* symbol) { return estimate.factor(symbol).value.central; };
    const double A = estimate.loss.central, R = value("R"), K = value("K"), LS = value("LS"), C = value("C"),
                 P = value("P"), m = value("m");
    source::Steps steps;
    add_products(steps, "A", R, K, {m, LS, C, P}, A);
    steps.push_back(counted_step(estimate.loss, loss_unit, draws));
    if (estimate.structure.assessment)
        steps.push_back({"A0", "loss without the soak tests (m = 1)", "A / m", in_working(A) + " / " + in_working(m),
                         estimate.loss_without_tests.central, loss_unit, arithmetic()});
    if (estimate.tolerance) {
        const std::string T = in_working(*estimate.tolerance);
        steps.push_back({"T",
                         estimate.field.tolerance->origin.citation.empty() ? "the planners' mark, as given"
                                                                           : "the planners' mark, by depth",
                         "", "", *estimate.tolerance, loss_unit, estimate.field.tolerance->origin});
        steps.push_back({"A / T", "loss in times of T", "", in_working(A) + " / " + T, *estimate.loss_over_tolerance,
                         "1", arithmetic()});
        const std::string working = T + " / (" + product({R, K, m, LS}) + ")";
        const bool held = *estimate.largest_cover_times_practice >= 1.0;
        steps.push_back({"C P", "the most that stays at T", "T / (R K m LS)",
                         held ? "min(1, " + working + ")" : working, *estimate.largest_cover_times_practice, "1",
                         arithmetic()});
    }
    if (estimate.total) {
        const double area = estimate.field.area_ha->value;
        steps.push_back({"area", "area, as given", "", "", area, "ha", estimate.field.area_ha->origin});
        steps.push_back({"total", "soil lost from the whole field in a year", "A area",
                         in_working(A) + " x " + in_working(area), estimate.total->central, "t/yr", arithmetic()});
    }
    for (std::size_t i = 0; i < estimate.slope_parts.size(); ++i) {
        const SlopePartLoss& part = estimate.slope_parts[i];
        const std::string number = std::to_string(i + 1);
        steps.push_back({"A" + number, "loss from part " + number + " of the slope, on its own ground", "A LSj / LS",
                         in_working(A) + " x " + in_working(part.LS) + " / " + in_working(LS), part.loss.central,
                         loss_unit, arithmetic()});
    }
    add_leaving(steps, estimate.leaving, A, draws);
    const double depth = estimate.depth_mm_per_year.central;
    steps.push_back({"BD", "bulk density", "", "", estimate.bulk_density, "t/m3", estimate.bulk_density_origin});
    steps.push_back({"depth", "depth of soil lost in a year", "A / (10 BD)",
                     in_working(A) + " / (10 x " + in_working(estimate.bulk_density) + ")", depth, "mm/yr",
                     source::origin_of("depth-of-loss")});
    steps.push_back({"depth", "depth of soil lost in 30 years", "", "30 x " + in_working(depth), 30 * depth, "mm/30 yr",
                     source::origin_of("depth-of-loss")});
    append(steps, estimate.consequences.steps);
    return steps;
}

source::Steps ratio_steps(double from, double to, const spread::Interval& ratio, const spread::Interval& saved,
                          std::size_t draws) {
    const std::string a = in_working(from), b = in_working(to);
    return {{"ratio", "A2 to A1", "A2 / A1", b + " / " + a, ratio.central, "1", arithmetic()},
            counted_step(ratio, "1", draws),
            {"saved", "soil kept in a year", "A1 - A2", a + " - " + b, saved.central, loss_unit, arithmetic()},
            counted_step(saved, loss_unit, draws)};
}

source::Steps change_steps(const FieldEstimate& estimate, const ChangeResult& change, double m, std::size_t draws) {
    source::Steps steps;
    const double A = change.loss.central, now = estimate.loss.central;
    add_products(steps, "A2", estimate.factor("R").value.central, estimate.factor("K").value.central,
                 {m, change.LS.value.central, change.C.value.central, change.P.value.central}, A);
    steps.push_back(counted_step(change.loss, loss_unit, draws));
    add_leaving(steps, change.leaving, A, draws);
    append(steps, ratio_steps(now, A, change.ratio, change.saved, draws));
    return steps;
}

}  // namespace soilhold::loss
