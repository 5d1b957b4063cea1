#include "change/comparison.h"

#include <algorithm>
#include <cmath>

#include "loss/annual_loss.h"
#include "loss/draws.h"
#include "loss/inputs.h"
#include "loss/steps.h"
#include "units/unit.h"

namespace soilhold::change {

namespace {

using loss::FieldDraws;
using loss::FieldInputs;

soiltest::Site site_of(const loss::Field& field, const FieldInputs& inputs) {
    return {field.map_unit, field.texture_class, inputs.K.central / units::erodibility_si_per_us,
            inputs.now.gradient.central};
}

/// Correlation of the two fields' ln m that makes the doubt of their difference the pair's own: what reference,
/// crosswalk and season share cancels there.
double structure_correlation(const structure::Assessment& from, const structure::Assessment& to,
                             const structure::StructureRatio& pair) {
    const double v1 = from.posterior_log_sd * from.posterior_log_sd;
    const double v2 = to.posterior_log_sd * to.posterior_log_sd;
    if (v1 <= 0 || v2 <= 0) return 0.0;
    const double v12 = pair.posterior_log_sd * pair.posterior_log_sd;
    return std::clamp((v1 + v2 - v12) / (2 * std::sqrt(v1 * v2)), 0.0, 1.0);
}

/// The second field's draws with its structure score tied to the first's.
std::vector<double> tied_loss(const FieldInputs& to, const FieldDraws& from_draws, const FieldDraws& to_draws,
                              double correlation) {
    const double rest = std::sqrt(1.0 - correlation * correlation);
    std::vector<double> tied(to_draws.now.loss.size());
    for (std::size_t i = 0; i < tied.size(); ++i) {
        const double z = correlation * from_draws.structure_score[i] + rest * to_draws.structure_score[i];
        tied[i] = to_draws.now.loss_without_tests[i] * loss::structure_at(to.structure, z);
    }
    return tied;
}

std::vector<std::string> shared_inputs(const FieldInputs& a, const FieldInputs& b) {
    std::vector<std::string> shared;
    if (a.R.same_statement(b.R)) shared.emplace_back("R");
    if (a.K.same_statement(b.K)) shared.emplace_back("K");
    if (a.now.length_m.same_statement(b.now.length_m)) shared.emplace_back("slope length");
    if (a.now.gradient.same_statement(b.now.gradient)) shared.emplace_back("steepness");
    return shared;
}

/// Whether the tests and the estimate without them point the same way.
std::string agreement(const soiltest::Difference& tests, double ratio_without_tests) {
    const bool tests_clear = tests.p_value < 0.1;
    const bool estimate_clear = ratio_without_tests < 0.8 || ratio_without_tests > 1.25;
    if (!tests_clear) return "The tests show no clear difference, so they neither support nor oppose the estimate.";
    if (!estimate_clear) return "The tests differ, but the estimate without them is about the same for both fields.";
    const bool tests_favour_second = tests.mean_class_difference > 0;
    const bool estimate_favours_second = ratio_without_tests < 1;
    if (tests_favour_second == estimate_favours_second)
        return "The tests and the estimate point the same way. The tests do not set the tons.";
    return "The tests and the estimate point opposite ways. Check the labels first; then recent tillage, damp clods, "
           "sand, "
           "cloudy water and the history of the field.";
}

Pair compare_pair(const std::vector<loss::Field>& fields, const std::vector<FieldInputs>& inputs,
                  const std::vector<FieldDraws>& draws, std::size_t from, std::size_t to) {
    Pair pair;
    pair.from = from;
    pair.to = to;
    pair.fairness = soiltest::fairness(fields[from].tests, site_of(fields[from], inputs[from]), fields[to].tests,
                                       site_of(fields[to], inputs[to]));
    pair.shared = shared_inputs(inputs[from], inputs[to]);
    if (pair.fairness.grade != soiltest::Grade::fair) return pair;

    const double from_loss = loss::central_loss(inputs[from], inputs[from].now);
    const double to_loss = loss::central_loss(inputs[to], inputs[to].now);
    const auto& from_m = inputs[from].structure.assessment;
    const auto& to_m = inputs[to].structure.assessment;
    double correlation = 0.0;
    if (from_m && to_m) {
        pair.structure = structure::structure_ratio(*from_m, *to_m);
        correlation = structure_correlation(*from_m, *to_m, *pair.structure);
    }
    const std::vector<double>& a = draws[from].now.loss;
    const std::vector<double> b = tied_loss(inputs[to], draws[from], draws[to], correlation);
    std::vector<double> ratio(a.size()), saved(a.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        ratio[i] = b[i] / a[i];
        saved[i] = a[i] - b[i];
    }
    pair.ratio = spread::interval_of(to_loss / from_loss, std::move(ratio));
    pair.saved = spread::interval_of(from_loss - to_loss, std::move(saved));
    pair.steps = loss::ratio_steps(from_loss, to_loss, *pair.ratio, *pair.saved, a.size());
    pair.ratio_without_tests = (to_loss / inputs[to].structure.m()) / (from_loss / inputs[from].structure.m());
    if (!fields[from].tests.slake_spots.empty() && !fields[to].tests.slake_spots.empty()) {
        pair.tests = soiltest::difference(fields[from].tests, fields[from].name, fields[to].tests, fields[to].name);
        pair.agreement = agreement(*pair.tests, *pair.ratio_without_tests);
    }
    return pair;
}

Comparison work(const std::vector<loss::Field>& fields, const loss::DrawSettings& settings, bool pairs) {
    Comparison result;
    result.draws = settings;
    std::vector<FieldInputs> inputs;
    inputs.reserve(fields.size());
    for (const loss::Field& field : fields) inputs.push_back(loss::inputs_of(field));
    const std::vector<FieldDraws> draws = loss::draw(inputs, settings);
    for (std::size_t i = 0; i < fields.size(); ++i)
        result.fields.push_back(loss::estimate_field(fields[i], inputs[i], draws[i]));
    if (pairs)
        for (std::size_t i = 0; i < fields.size(); ++i)
            for (std::size_t j = i + 1; j < fields.size(); ++j)
                result.pairs.push_back(compare_pair(fields, inputs, draws, i, j));
    return result;
}

}  // namespace

Comparison compare(const std::vector<loss::Field>& fields, const loss::DrawSettings& settings) {
    return work(fields, settings, true);
}

Comparison estimate(const std::vector<loss::Field>& fields, const loss::DrawSettings& settings) {
    return work(fields, settings, false);
}

}  // namespace soilhold::change
