#include "structure/steps.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "spread/uncertain.h"
#include "structure/aggregate_scale.h"
#include "structure/expected_stability.h"
#include "structure/links.h"
#include "structure/parameters.h"

namespace soilhold::structure {

namespace {

using source::in_working;
using source::origin_of;

/// Steps, the first of each of the seven numbered.
struct Working {
    source::Steps steps;
    std::string number{};
    void begin(int step) { number = "step " + std::to_string(step) + ": "; }
    double add(std::string symbol, const std::string& words, std::string equation, std::string working, double value,
               std::string unit, source::Origin origin) {
        steps.push_back({std::move(symbol), number + words, std::move(equation), std::move(working), value,
                         std::move(unit), std::move(origin)});
        number.clear();
        return value;
    }
};

source::Origin of_tests() { return {"soak tests of the field file", "", source::Standing::users_figure}; }

std::string squared_distances(const std::vector<double>& values, double mean) {
    std::string text;
    for (const double value : values)
        text += (text.empty() ? "" : " + ") + ("(" + in_working(value)) + " - " + in_working(mean) + ")^2";
    return text;
}

std::string root_of_squares(const std::string& first, const std::string& second) {
    return "sqrt((" + first + ")^2 + " + second + "^2)";
}

std::string mean_in_working(const std::vector<double>& values) {
    return values.empty() ? "" : "(" + source::sum_in_working(values) + ") / " + std::to_string(values.size());
}

std::string error_in_working(const std::vector<double>& values, double mean) {
    const std::string n = std::to_string(values.size());
    return values.empty() ? "" : "sqrt((" + squared_distances(values, mean) + ") / (" + n + " x (" + n + " - 1)))";
}

/// Steps 1 and 2, slake test: mean class, its standard error, W and its sd.
void slake_steps(Working& to, const soiltest::SlakeSummary& slake) {
    const Parameters& p = parameters();
    const std::string n = in_working(slake.spots);
    to.add("c", "mean class over " + n + (slake.spots == 1 ? " spot" : " spots"), "", mean_in_working(slake.means),
           slake.mean_class, "class", of_tests());
    if (slake.standard_error)
        to.add("se", "standard error over spots", "sqrt(sum (spot - c)^2 / (n (n - 1)))",
               error_in_working(slake.means, slake.mean_class), *slake.standard_error, "class", of_tests());
    else
        to.add("se", "one spot alone: the usual spread between spots", "", "", p.one_spot_class_sd, "class",
               origin_of("structure-parameters"));
    const std::string slope = in_working(p.crosswalk_slope);
    const double se = slake.standard_error.value_or(p.one_spot_class_sd);
    const Observation found = from_slake(slake);
    to.begin(2);
    to.add("W1", "stable soil, by the slake test", in_working(p.crosswalk_intercept) + " + " + slope + " c",
           in_working(p.crosswalk_intercept) + " + " + slope + " x " + in_working(slake.mean_class), found.W, "%",
           origin_of("structure-parameters"));
    to.add("s1", "standard deviation of W1", "sqrt((" + slope + " se)^2 + " + in_working(p.crosswalk_residual) + "^2)",
           root_of_squares(slope + " x " + in_working(se), in_working(p.crosswalk_residual)), found.sd, "%",
           origin_of("structure-parameters"));
}

void slump_steps(Working& to, const soiltest::SlumpSummary& slump) {
    const Observation found = from_slump(slump.typical);
    const char* verdict = slump.typical == soiltest::SlumpVerdict::holds     ? "held"
                          : slump.typical == soiltest::SlumpVerdict::partial ? "partly slumped"
                                                                             : "ran to slurry";
    to.add("W2", std::string("stable soil, by loose soil that ") + verdict, "", "", found.W, "%",
           origin_of("structure-parameters"));
    to.add("s2", "standard deviation of W2", "", "", found.sd, "%", origin_of("structure-parameters"));
}

double mean_error(Working& to, const soiltest::MeanSummary& mean, const std::string& symbol, const char* unit) {
    if (mean.standard_error)
        return to.add(symbol, "standard error over spots", "sqrt(sum (spot - mean)^2 / (n (n - 1)))",
                      error_in_working(mean.spot_values, mean.mean), *mean.standard_error, unit, of_tests());
    const double share = parameters().one_spot_relative_sd;
    return to.add(symbol, "one spot alone: the usual spread of a laboratory figure", "",
                  in_working(share) + " x " + in_working(mean.mean), share * mean.mean, unit,
                  origin_of("structure-parameters"));
}

void water_stable_steps(Working& to, const soiltest::MeanSummary& percent) {
    const Observation found = from_water_stable(percent);
    to.add("W3", "water-stable aggregates, mean over spots", "", mean_in_working(percent.spot_values), found.W, "%",
           of_tests());
    const double se = mean_error(to, percent, "se3", "%");
    const std::string least = in_working(parameters().water_stable_residual);
    to.add("s3", "standard deviation of W3", "sqrt(se3^2 + " + least + "^2)",
           "sqrt(" + in_working(se) + "^2 + " + least + "^2)", found.sd, "%", origin_of("structure-parameters"));
}

void diameter_steps(Working& to, const soiltest::MeanSummary& diameter) {
    const Knots& knots = diameter_knots();
    const Observation found = from_mean_weight_diameter(diameter);
    to.add("MWD", "mean weight diameter, mean over spots", "", mean_in_working(diameter.spot_values), diameter.mean,
           "mm", of_tests());
    const double se = mean_error(to, diameter, "se4", "mm");
    to.add("W4", "stable soil, straight between the rows of its table", "", knots_in_working(knots, diameter.mean),
           found.W, "%", origin_of("structure-parameters"));
    const double above = between_knots(knots, diameter.mean + se);
    const double below = between_knots(knots, std::max(0.0, diameter.mean - se));
    const std::string scatter = in_working(parameters().mean_weight_diameter_sd);
    to.add("s4", "standard deviation of W4: half of what the table gives from se4 below to se4 above, and its scatter",
           "", root_of_squares("(" + in_working(above) + " - " + in_working(below) + ") / 2", scatter), found.sd, "%",
           origin_of("structure-parameters"));
}

/// Steps 1 and 2: every test on the common scale, then their mean.
void measured_steps(Working& to, const soiltest::Summary& tests, const Assessment& a) {
    to.begin(1);
    if (tests.slake) slake_steps(to, *tests.slake);
    if (tests.slump) slump_steps(to, *tests.slump);
    if (tests.water_stable_pct) water_stable_steps(to, *tests.water_stable_pct);
    if (tests.mean_weight_diameter_mm) diameter_steps(to, *tests.mean_weight_diameter_mm);
    const std::vector<Observation> found = observations(tests);
    std::string weighted, weights;
    for (const Observation& test : found) {
        weighted += (weighted.empty() ? "" : " + ") + in_working(test.W) + " / " + in_working(test.sd) + "^2";
        weights += (weights.empty() ? "1 / " : " + 1 / ") + in_working(test.sd) + "^2";
    }
    const bool one = found.size() == 1;
    if (!tests.slake) to.begin(2);
    to.add("W", one ? "one test only" : "mean of the tests, the surer ones counting more",
           one ? "" : "sum (W / s^2) / sum (1 / s^2)", one ? "" : "(" + weighted + ") / (" + weights + ")", a.W, "%",
           origin_of("structure-factor"));
    to.add("s", "standard deviation of W", one ? "" : "1 / sqrt(sum 1 / s^2)", one ? "" : "1 / sqrt(" + weights + ")",
           a.W_own_sd, "%", origin_of("structure-factor"));
}

/// Step 3: what K and C already assume.
void expected_steps(Working& to, const Soil& soil, const Assessment& a) {
    to.begin(3);
    if (a.local_reference) {
        to.add("Wr", "stable soil of the reference field that was tested itself", "", "", a.W_ref, "%",
               {"reference of the field file", "", source::Standing::users_figure});
        to.add("sr", "standard deviation of Wr", "", "", a.reference_sd, "%", origin_of("structure-parameters"));
        return;
    }
    const double by_clay =
        to.add("Q1", "suitable stability at " + in_working(*soil.clay_pct) + " % clay, straight between the rows", "",
               knots_in_working(suitable_knots_by_clay(), *soil.clay_pct), suitable_by_clay(*soil.clay_pct), "%",
               origin_of("wsa-suitable"));
    const double by_matter =
        to.add("Q2", "and at " + in_working(*soil.organic_matter_pct) + " % organic matter", "",
               knots_in_working(suitable_knots_by_organic_matter(), *soil.organic_matter_pct),
               suitable_by_organic_matter(*soil.organic_matter_pct), "%", origin_of("wsa-suitable"));
    const double offset = management_offset(a.credited, a.mode, a.rest_share);
    if (a.rest_share && a.mode == CountingMode::credited)
        to.add("rest", "how much of seven years' rest the calendar of C credits already", "", "", *a.rest_share, "1",
               origin_of("cover-calendar"));
    const char* why = a.mode == CountingMode::cover_only ? "expected of tilled ground, since C holds cover only"
                      : a.rest_share                     ? "expected under the rest that the calendar of C credits"
                      : a.credited == Credited::tilled   ? "expected under the tillage that C credits"
                      : a.credited == Credited::reduced  ? "expected under the reduced tillage that C credits"
                                                         : "expected under the no-till that C credits";
    const std::string down = offset < 0 ? " - " + in_working(-offset) : "";
    to.add("Wr", why, "(Q1 + Q2) / 2" + down,
           "(" + in_working(by_clay) + " + " + in_working(by_matter) + ") / 2" + down, a.W_ref, "%",
           origin_of("structure-parameters"));
    to.add("sr", "standard deviation of Wr", "", "", a.reference_sd, "%", origin_of("structure-parameters"));
}

/// Steps 4 and 5: the links, pooled.
void link_steps(Working& to, const Soil& soil, const Assessment& a) {
    const Parameters& p = parameters();
    const std::string K = in_working(soil.erodibility_us), W = in_working(a.W), W_ref = in_working(a.W_ref);
    to.begin(4);
    to.add("K", "K as used above, in US units", "", "", soil.erodibility_us, "US K", origin_of("unit-conversions"));
    const double free = (a.W_ref - a.W) / p.points_per_structure_step;
    const double d = std::clamp(free, -1.0, 1.0);
    const std::string points = in_working(p.points_per_structure_step);
    const std::string share = "(" + W_ref + " - " + W + ") / " + points;
    to.add("d", "codes of the nomograph that the field lies off; at most 1 either way", "(Wr - W) / " + points,
           free > 1    ? "min(1, " + share + ")"
           : free < -1 ? "max(-1, " + share + ")"
                       : share,
           d, "1", origin_of("structure-parameters"));
    const std::string per_code = in_working(p.structure_step) + " + " + in_working(p.permeability_share) + " x " +
                                 in_working(p.permeability_step);
    const auto kept = [](const std::string& working, double value) {
        return value <= 0.3 ? "max(0.3, " + working + ")" : value >= 3 ? "min(3, " + working + ")" : working;
    };
    to.add("mA", "by the nomograph's codes", "1 + (" + per_code + ") d / K",
           kept("1 + (" + per_code + ") x " + in_working(d) + " / " + K, a.m_nomograph), a.m_nomograph, "1",
           origin_of("link-nomograph"));
    if (a.m_unstable_fraction) {
        const std::string slope = in_working(p.unstable_slope);
        to.add("mB", "by the unstable fraction", "1 + " + slope + " (Wr - W) / K",
               kept("1 + " + slope + " x (" + W_ref + " - " + W + ") / " + K, *a.m_unstable_fraction),
               *a.m_unstable_fraction, "1", origin_of("link-unstable"));
    }
    const std::string rest = in_working(1 - p.interrill_share), part = in_working(p.interrill_share);
    to.add(
        "mC", "by slaking between rills", rest + " + " + part + " (100 - W) / max(15, 100 - Wr)",
        rest + " + " + part + " x (100 - " + (a.W > 98 ? "min(98, " + W + ")" : W) + ") / max(15, 100 - " + W_ref + ")",
        a.m_interrill, "1", origin_of("link-interrill"));
    std::string logs = "(ln(" + in_working(a.m_nomograph) + ")";
    if (a.m_unstable_fraction) logs += " + ln(" + in_working(*a.m_unstable_fraction) + ")";
    logs += " + ln(" + in_working(a.m_interrill) + ")) / " + std::to_string(a.log_links.size());
    const double pooled = std::log(a.m_pooled);
    to.begin(5);
    to.add("q", "mean of their logarithms; exp(q) = " + in_working(a.m_pooled) + " is m before its doubt counts",
           "mean of the ln m", logs, pooled, "1", origin_of("structure-factor"));
    to.add("b", "how far the links lie apart, at least " + in_working(p.link_sd_least),
           "max(" + in_working(p.link_sd_least) + ", sqrt(sum (ln m - q)^2 / (n - 1)))",
           "max(" + in_working(p.link_sd_least) + ", sqrt((" + squared_distances(a.log_links, pooled) + ") / " +
               std::to_string(a.log_links.size() - 1) + "))",
           std::max(p.link_sd_least, spread_of(a.log_links)), "1", origin_of("structure-parameters"));
}

/// Step 6: the doubt of ln m.
void doubt_steps(Working& to, const soiltest::Summary& tests, const Assessment& a) {
    const Parameters& p = parameters();
    to.begin(6);
    to.add("e", "change of q for one point of W: the links again at W + 0.5 and W - 0.5", "q(W + 0.5) - q(W - 0.5)",
           in_working(a.log_m_above, 7) + " - " + in_working(a.log_m_below, 7), a.slope, "per %",
           origin_of("structure-factor"));
    double shared = a.reference_sd;
    if (tests.slake) {
        const std::string classes = in_working(tests.slake->mean_class) + " - (" + in_working(a.W_ref) + " - " +
                                    in_working(p.crosswalk_intercept) + ") / " + in_working(p.crosswalk_slope);
        shared = to.add(
            "u", "doubt of the expectation, and of what a class is worth over the classes between", "",
            root_of_squares(in_working(p.crosswalk_slope_sd) + " x (" + classes + ")", in_working(a.reference_sd)),
            a.shared_sd, "%", origin_of("structure-parameters"));
    }
    const double between = std::max(p.link_sd_least, spread_of(a.log_links));
    to.add(
        "v", "doubt of q: measuring, links, and one date for a season",
        std::string("sqrt(e^2 (s^2 + ") + (tests.slake ? "u" : "sr") + "^2) + b^2 + " + in_working(p.season_sd) + "^2)",
        "sqrt(" + in_working(a.slope) + "^2 x (" + in_working(a.W_own_sd) + "^2 + " + in_working(shared) + "^2) + " +
            in_working(between) + "^2 + " + in_working(p.season_sd) + "^2)",
        a.log_sd, "1", origin_of("structure-factor"));
}

/// Step 7: drawn towards 1 by its doubt.
void shrunk_steps(Working& to, const Assessment& a) {
    const Parameters& p = parameters();
    const std::string prior = in_working(p.prior_sd);
    to.begin(7);
    to.add("w", "weight of the tests", prior + "^2 / (" + prior + "^2 + v^2)",
           prior + "^2 / (" + prior + "^2 + " + in_working(a.log_sd) + "^2)", a.shrinkage, "1",
           origin_of("structure-parameters"));
    const double log_m = a.shrinkage * std::log(a.m_pooled);
    to.add("m", "structure factor, drawn towards 1 by its doubt", "exp(w q)",
           source::held_working("exp(" + in_working(a.shrinkage) + " x " + in_working(std::log(a.m_pooled)) + ")",
                                std::exp(log_m), a.m),
           a.m, "1", origin_of("structure-factor"));
    const double sd = a.posterior_log_sd;
    to.add("sm", "doubt of ln m", "v sqrt(w)", in_working(a.log_sd) + " x sqrt(" + in_working(a.shrinkage) + ")", sd,
           "1", origin_of("structure-factor"));
    const double z = spread::score_of_80_percent;
    const auto end = [&](const char* sign, double free, double kept) {
        return source::held_working("exp(" + in_working(log_m) + sign + in_working(z) + " x " + in_working(sd) + ")",
                                    free, kept);
    };
    source::Step middle;
    middle.words = "the middle 80 %";
    middle.working = end(" - ", std::exp(log_m - z * sd), a.low_80);
    middle.value = a.low_80;
    middle.upper_working = end(" + ", std::exp(log_m + z * sd), a.high_80);
    middle.upper = a.high_80;
    middle.unit = "1";
    middle.origin = origin_of("structure-factor");
    to.steps.push_back(std::move(middle));
}

}  // namespace

source::Steps steps_of(const soiltest::Summary& tests, const Soil& soil, const Assessment& assessment) {
    Working to;
    measured_steps(to, tests, assessment);
    expected_steps(to, soil, assessment);
    link_steps(to, soil, assessment);
    doubt_steps(to, tests, assessment);
    shrunk_steps(to, assessment);
    return std::move(to.steps);
}

}  // namespace soilhold::structure
