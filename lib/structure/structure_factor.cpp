#include "structure/structure_factor.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "spread/uncertain.h"
#include "structure/aggregate_scale.h"
#include "structure/applicability.h"
#include "structure/expected_stability.h"
#include "structure/links.h"
#include "structure/parameters.h"
#include "structure/steps.h"

namespace soilhold::structure {

namespace {

/// Edge of a central 90 % interval, as the method was written down.
constexpr double score_of_90_percent = 1.645;

double held(double m) { return std::clamp(m, least_m(), most_m()); }

/// The part of the doubt of a difference that comes from the two expectations and does not cancel, as a variance of ln
/// m.
double unshared_reference_variance(const Assessment& first, const Assessment& second) {
    if (first.local_reference || second.local_reference) {
        if (first.local_reference == second.local_reference && first.W_ref == second.W_ref) return 0.0;
        return std::pow(first.slope * first.reference_sd, 2) + std::pow(second.slope * second.reference_sd, 2);
    }
    if (management_offset(first.credited, first.mode, first.rest_share) ==
        management_offset(second.credited, second.mode, second.rest_share))
        return 0.0;
    return std::pow(second.slope * parameters().offset_sd, 2);
}

/// ln of the links that both fields have, second minus first.
std::vector<double> link_differences(const Assessment& first, const Assessment& second) {
    std::vector<double> differences{std::log(second.m_nomograph / first.m_nomograph)};
    if (first.m_unstable_fraction && second.m_unstable_fraction)
        differences.push_back(std::log(*second.m_unstable_fraction / *first.m_unstable_fraction));
    differences.push_back(std::log(second.m_interrill / first.m_interrill));
    return differences;
}

Assessment assess(const soiltest::Summary& tests, const Soil& soil, Credited credited, CountingMode mode,
                  const std::optional<LocalReference>& reference, std::optional<double> rest_share) {
    const Parameters& p = parameters();
    Assessment a;
    a.rest_share = rest_share;
    a.credited = credited;
    a.mode = mode;
    const Observation measured = combine(observations(tests));
    a.W = measured.W;
    a.W_own_sd = measured.sd;
    a.local_reference = reference.has_value();
    a.W_ref = reference ? reference->water_stable_pct
                        : expected_stability(*soil.clay_pct, *soil.organic_matter_pct, credited, mode, rest_share);
    a.reference_sd = reference ? p.local_reference_sd : p.reference_sd;
    // A wrong slope of the crosswalk does the more harm the farther the class lies from the one that is expected.
    const double classes_away =
        tests.slake ? tests.slake->mean_class - (a.W_ref - p.crosswalk_intercept) / p.crosswalk_slope : 0.0;
    a.shared_sd = std::hypot(a.reference_sd, p.crosswalk_slope_sd * classes_away);

    const Links found = links(a.W, a.W_ref, soil.erodibility_us);
    a.m_nomograph = found.nomograph;
    a.m_unstable_fraction = found.unstable_fraction;
    a.m_interrill = found.interrill;
    a.log_links = found.logs();
    a.m_pooled = std::exp(pooled_log(found));
    // Over one point about W: the links bend at their limits, where a derivative has no single value.
    const double half = 0.5;
    a.log_m_below = pooled_log(links(a.W - half, a.W_ref, soil.erodibility_us));
    a.log_m_above = pooled_log(links(a.W + half, a.W_ref, soil.erodibility_us));
    a.slope = (a.log_m_above - a.log_m_below) / (2.0 * half);

    const double measurement = std::abs(a.slope) * std::hypot(a.W_own_sd, a.shared_sd);
    const double between_links = std::max(p.link_sd_least, spread_of(a.log_links));
    a.log_sd = std::sqrt(measurement * measurement + between_links * between_links + p.season_sd * p.season_sd);
    const double prior = p.prior_sd * p.prior_sd;
    a.shrinkage = prior / (prior + a.log_sd * a.log_sd);
    a.posterior_log_sd = std::sqrt(a.shrinkage) * a.log_sd;
    const double log_m = a.shrinkage * pooled_log(found);
    a.m = held(std::exp(log_m));
    a.low_80 = held(std::exp(log_m - spread::score_of_80_percent * a.posterior_log_sd));
    a.high_80 = held(std::exp(log_m + spread::score_of_80_percent * a.posterior_log_sd));
    a.low_90 = held(std::exp(log_m - score_of_90_percent * a.posterior_log_sd));
    a.high_90 = held(std::exp(log_m + score_of_90_percent * a.posterior_log_sd));
    return a;
}

}  // namespace

double least_m() { return parameters().m_least; }
double most_m() { return parameters().m_most; }

StructureFactor structure_factor(const soiltest::Summary& tests, const Soil& soil, Credited credited, CountingMode mode,
                                 const std::optional<LocalReference>& reference, std::optional<double> rest_share) {
    if (!(soil.erodibility_us > 0.0) || !std::isfinite(soil.erodibility_us))
        throw std::invalid_argument(fmt::format("K {} US: a K above 0 is wanted", soil.erodibility_us));
    if (reference && !(reference->water_stable_pct >= 0.0 && reference->water_stable_pct <= 100.0))
        throw std::invalid_argument(
            fmt::format("a reference of {} % stable soil: between 0 and 100 % is wanted", reference->water_stable_pct));
    StructureFactor result;
    result.why_not = why_not_applied(tests, soil, reference);
    if (!result.why_not.empty()) return result;
    result.assessment = assess(tests, soil, credited, mode, reference, rest_share);
    result.remarks = remarks_on(tests, soil, *result.assessment);
    result.steps = steps_of(tests, soil, *result.assessment);
    return result;
}

StructureRatio structure_ratio(const Assessment& first, const Assessment& second) {
    const Parameters& p = parameters();
    const std::vector<double> differences = link_differences(first, second);
    double log_ratio = 0.0;
    for (const double difference : differences) log_ratio += difference / static_cast<double>(differences.size());
    StructureRatio ratio;
    ratio.link_spread = std::max(p.link_sd_least, spread_of(differences));
    const double unshared = unshared_reference_variance(first, second);
    ratio.unshared_sd = std::sqrt(unshared);
    const double variance = std::pow(first.slope * first.W_own_sd, 2) + std::pow(second.slope * second.W_own_sd, 2) +
                            std::pow(ratio.link_spread, 2) + unshared;
    ratio.pooled = std::exp(log_ratio);
    ratio.log_sd = std::sqrt(variance);
    const double prior = 2.0 * p.prior_sd * p.prior_sd;
    ratio.shrinkage = prior / (prior + variance);
    ratio.posterior_log_sd = std::sqrt(ratio.shrinkage) * ratio.log_sd;
    ratio.ratio = std::exp(ratio.shrinkage * log_ratio);
    ratio.low_90 = ratio.ratio * std::exp(-score_of_90_percent * ratio.posterior_log_sd);
    ratio.high_90 = ratio.ratio * std::exp(score_of_90_percent * ratio.posterior_log_sd);
    ratio.steps = ratio_steps(first, second, ratio);
    return ratio;
}

}  // namespace soilhold::structure
