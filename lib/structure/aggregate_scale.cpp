#include "structure/aggregate_scale.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "source/reference_table.h"
#include "structure/knots.h"
#include "structure/parameters.h"

namespace soilhold::structure {

namespace {

/// Standard error of a laboratory mean; one spot alone takes the usual relative spread of a field.
double standard_error(const soiltest::MeanSummary& mean) {
    return mean.standard_error.value_or(parameters().one_spot_relative_sd * mean.mean);
}

}  // namespace

const Knots& diameter_knots() {
    static const Knots knots = [] {
        Knots read;
        for (const source::Row& row : source::table("mwd-knots").rows)
            read.emplace_back(row.number("mwd_mm"), row.number("water_stable_pct"));
        return read;
    }();
    return knots;
}

double W_from_class(double mean_class) {
    return parameters().crosswalk_intercept + parameters().crosswalk_slope * mean_class;
}

Observation from_slake(const soiltest::SlakeSummary& slake) {
    const Parameters& p = parameters();
    const double own = p.crosswalk_slope * slake.standard_error.value_or(p.one_spot_class_sd);
    return {W_from_class(slake.mean_class), std::hypot(own, p.crosswalk_residual)};
}

Observation from_water_stable(const soiltest::MeanSummary& percent) {
    return {percent.mean, std::hypot(standard_error(percent), parameters().water_stable_residual)};
}

Observation from_mean_weight_diameter(const soiltest::MeanSummary& diameter_mm) {
    const double se = standard_error(diameter_mm);
    // The lines bend, so the error is carried through the crosswalk itself rather than along one line's slope.
    const double own = 0.5 * (between_knots(diameter_knots(), diameter_mm.mean + se) -
                              between_knots(diameter_knots(), std::max(0.0, diameter_mm.mean - se)));
    return {between_knots(diameter_knots(), diameter_mm.mean), std::hypot(own, parameters().mean_weight_diameter_sd)};
}

Observation from_slump(soiltest::SlumpVerdict verdict) {
    const Parameters& p = parameters();
    switch (verdict) {
        case soiltest::SlumpVerdict::holds:
            return {p.slump_holds, p.slump_sd};
        case soiltest::SlumpVerdict::partial:
            return {p.slump_partial, p.slump_sd};
        case soiltest::SlumpVerdict::slurry:
            return {p.slump_slurry, p.slump_sd};
    }
    throw std::invalid_argument("no such slump verdict");
}

std::vector<Observation> observations(const soiltest::Summary& tests) {
    std::vector<Observation> found;
    if (tests.slake) found.push_back(from_slake(*tests.slake));
    if (tests.slump) found.push_back(from_slump(tests.slump->typical));
    if (tests.water_stable_pct) found.push_back(from_water_stable(*tests.water_stable_pct));
    if (tests.mean_weight_diameter_mm) found.push_back(from_mean_weight_diameter(*tests.mean_weight_diameter_mm));
    return found;
}

Observation combine(const std::vector<Observation>& tests) {
    if (tests.empty()) throw std::invalid_argument("no test to put on the common scale");
    double weights = 0.0, sum = 0.0;
    for (const Observation& test : tests) {
        const double weight = 1.0 / (test.sd * test.sd);
        weights += weight;
        sum += weight * test.W;
    }
    return {sum / weights, 1.0 / std::sqrt(weights)};
}

}  // namespace soilhold::structure
