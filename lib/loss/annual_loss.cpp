#include "loss/annual_loss.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/slope_profile.h"
#include "factors/soil_depth.h"
#include "loss/steps.h"

namespace soilhold::loss {

namespace {

using spread::Interval;

constexpr double usual_bulk_density = 1.3;  // t/m3

Interval interval(const spread::Uncertain& input) {
    return {input.central, spread::at_score(input, -spread::score_of_80_percent),
            spread::at_score(input, spread::score_of_80_percent)};
}

FactorValue factor_value(std::string symbol, std::string unit, const spread::Uncertain& input) {
    source::Steps steps = factor_steps(input, unit);
    return {std::move(symbol),   std::move(unit), interval(input), input.origin,
            input.spread_origin, input.remarks,   std::move(steps)};
}

FactorValue slope_value(const FieldInputs& inputs, const PracticeInputs& practice, const std::vector<double>& draws) {
    FactorValue value;
    value.symbol = "LS";
    value.unit = "1";
    value.value = spread::interval_of(central_slope_factor(inputs, practice), draws);
    value.origin = source::origin_of(inputs.method == factors::SlopeMethod::handbook_703 ? "ls-ah703" : "ls-ah537");
    value.spread_origin = practice.length_m.spread_origin;
    value.remarks = practice.gradient.remarks;
    value.steps = slope_steps(inputs, practice, value, draws.size());
    return value;
}

FactorValue structure_value(const structure::StructureFactor& structure) {
    FactorValue value;
    value.symbol = "m";
    value.unit = "1";
    if (structure.assessment) {
        const structure::Assessment& a = *structure.assessment;
        value.value = {a.m, a.low_80, a.high_80};
        value.origin = source::origin_of("structure-factor");
    } else {
        value.value = {1.0, 1.0, 1.0};
        value.origin = {structure.why_not, "structure-factor", source::Standing::computed};
    }
    value.spread_origin = value.origin;
    value.remarks = structure.remarks;
    value.steps = structure.steps;
    if (value.steps.empty()) value.steps.push_back({"m", structure.why_not, "", "", 1.0, "1", value.origin});
    return value;
}

std::string method_words(const FieldInputs& inputs) {
    std::string text = factors::words_for(inputs.method);
    if (inputs.method == factors::SlopeMethod::handbook_703) {
        text += std::string(", ") + factors::words_for(inputs.rill_ratio);
    }
    if (!inputs.shape.empty()) text += fmt::format(", {} parts", inputs.shape.size());
    return text;
}

std::optional<Leaving> leaving_of(const PracticeInputs& practice, double central, const PracticeDraws& draws) {
    if (!practice.leaving) return std::nullopt;
    return Leaving{factor_value("passes", "1", *practice.leaving),
                   spread::interval_of(central * practice.leaving->central, draws.leaving)};
}

std::vector<SlopePartLoss> slope_parts(const FieldInputs& inputs, double central, const PracticeDraws& draws) {
    std::vector<SlopePartLoss> parts;
    const PracticeInputs& now = inputs.now;
    const double whole = central_slope_factor(inputs, now);
    for (std::size_t i = 0; i < draws.part_loss.size(); ++i) {
        SlopePartLoss part;
        part.length_m = inputs.shape[i].length_share * now.length_m.central;
        part.gradient = inputs.shape[i].relative_gradient * now.gradient.central;
        part.LS = factors::part_slope_factor(i, now.length_m.central, now.gradient.central, inputs.shape, inputs.method,
                                             inputs.rill_ratio);
        part.loss = spread::interval_of(central * part.LS / whole, draws.part_loss[i]);
        part.share = inputs.shape[i].length_share * part.LS / whole;
        parts.push_back(part);
    }
    return parts;
}

ChangeResult change_result(const Field& field, const FieldInputs& inputs, const FieldDraws& draws, std::size_t index) {
    const PracticeInputs& practice = inputs.changes[index];
    const PracticeDraws& changed = draws.changes[index];
    ChangeResult result;
    result.name = field.changes[index].name;
    result.note = field.changes[index].note;
    result.LS = slope_value(inputs, practice, changed.LS);
    result.C = factor_value("C", "1", practice.C);
    result.P = factor_value("P", "1", practice.P);
    const double now = central_loss(inputs, inputs.now);
    const double then = central_loss(inputs, practice);
    result.loss = spread::interval_of(then, changed.loss);
    std::vector<double> ratio(changed.loss.size()), saved(changed.loss.size());
    for (std::size_t i = 0; i < ratio.size(); ++i) {
        ratio[i] = changed.loss[i] / draws.now.loss[i];
        saved[i] = draws.now.loss[i] - changed.loss[i];
    }
    result.ratio = spread::interval_of(then / now, std::move(ratio));
    result.saved = spread::interval_of(now - then, std::move(saved));
    result.leaving = leaving_of(practice, then, changed);
    result.calendar = practice.calendar;
    result.changes_length = practice.own_length;
    result.changes_cover = practice.own_cover;
    result.changes_practice = practice.own_practice;
    result.remarks = practice.remarks;
    return result;
}

void add_remarks(source::Remarks& to, const source::Remarks& from) {
    for (const source::Remark& remark : from)
        if (std::find(to.begin(), to.end(), remark) == to.end()) to.push_back(remark);
}

}  // namespace

std::vector<DoubtShare> doubt_shares(const FieldInputs& inputs) {
    const PracticeInputs& now = inputs.now;
    const auto log_move = [](const spread::Uncertain& input) {
        return 0.5 * std::log(spread::at_score(input, 1.0) / spread::at_score(input, -1.0));
    };
    const auto slope_move = [&](bool length) {
        const auto at = [&](double z) {
            return slope_factor_of(inputs, now, length ? spread::at_score(now.length_m, z) : now.length_m.central,
                                   length ? now.gradient.central : spread::at_score(now.gradient, z));
        };
        return 0.5 * std::log(at(1.0) / at(-1.0));
    };
    std::vector<DoubtShare> shares = {
        {"rain erosivity R", std::pow(log_move(inputs.R), 2)},
        {"soil erodibility K", std::pow(log_move(inputs.K), 2)},
        {"soak tests (structure factor m)",
         inputs.structure.assessment ? std::pow(inputs.structure.assessment->posterior_log_sd, 2) : 0.0},
        {"slope length", std::pow(slope_move(true), 2)},
        {"slope steepness", std::pow(slope_move(false), 2)},
        {"cover factor C", std::pow(log_move(now.C), 2)},
        {"practice factor P", std::pow(log_move(now.P), 2)},
    };
    double sum = 0;
    for (const DoubtShare& share : shares) sum += share.share;
    if (sum > 0)
        for (DoubtShare& share : shares) share.share /= sum;
    std::stable_sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return shares;
}

const FactorValue& FieldEstimate::factor(const std::string& symbol) const {
    for (const FactorValue& value : factors)
        if (value.symbol == symbol) return value;
    throw std::out_of_range("no factor " + symbol);
}

FieldEstimate estimate_field(const Field& field, const FieldInputs& inputs, const FieldDraws& draws) {
    FieldEstimate result;
    result.field = field;
    result.slope_method = method_words(inputs);
    result.factors = {
        factor_value("R", "MJ mm/(ha h yr)", inputs.R),
        factor_value("K", "t ha h/(ha MJ mm)", inputs.K),
        structure_value(inputs.structure),
        slope_value(inputs, inputs.now, draws.now.LS),
        factor_value("C", "1", inputs.now.C),
        factor_value("P", "1", inputs.now.P),
    };
    const double central = central_loss(inputs, inputs.now);
    result.loss = spread::interval_of(central, draws.now.loss);
    result.loss_without_tests = spread::interval_of(central / inputs.structure.m(), draws.now.loss_without_tests);
    if (field.tolerance) {
        result.tolerance = field.tolerance->value;
        result.loss_over_tolerance = central / field.tolerance->value;
        const double bare = central / (inputs.now.C.central * inputs.now.P.central);
        result.largest_cover_times_practice = std::min(1.0, field.tolerance->value / bare);
    }
    if (field.area_ha) {
        const double area = field.area_ha->value;
        result.total = Interval{result.loss.central * area, result.loss.low * area, result.loss.high * area};
    }
    result.bulk_density = field.bulk_density ? field.bulk_density->value : usual_bulk_density;
    result.bulk_density_origin =
        field.bulk_density ? field.bulk_density->origin
                           : source::Origin{"a usual topsoil", "usual-bulk-density", source::Standing::our_assumption};
    result.depth_mm_per_year = {factors::depth_of_loss_mm(result.loss.central, result.bulk_density),
                                factors::depth_of_loss_mm(result.loss.low, result.bulk_density),
                                factors::depth_of_loss_mm(result.loss.high, result.bulk_density)};
    result.leaving = leaving_of(inputs.now, central, draws.now);
    result.calendar = inputs.now.calendar;
    result.slope_parts = slope_parts(inputs, central, draws.now);
    result.consequences = consequences_of(field, inputs, result.loss,
                                          result.leaving ? result.leaving->loss : result.loss, result.bulk_density);
    result.tests = inputs.tests;
    result.structure = inputs.structure;
    for (std::size_t i = 0; i < inputs.changes.size(); ++i)
        result.changes.push_back(change_result(field, inputs, draws, i));
    result.steps = loss_steps(result, draws.now.loss.size());
    for (std::size_t i = 0; i < result.changes.size(); ++i)
        result.changes[i].steps =
            change_steps(result, result.changes[i], inputs.changes[i].uses_structure ? inputs.structure.m() : 1.0,
                         draws.now.loss.size());
    result.doubt = doubt_shares(inputs);

    add_remarks(result.remarks, field.remarks);
    for (const FactorValue& value : result.factors) add_remarks(result.remarks, value.remarks);
    add_remarks(result.remarks, inputs.tests.remarks);
    std::stable_sort(result.remarks.begin(), result.remarks.end(),
                     [](const source::Remark& a, const source::Remark& b) {
                         return a.weight == source::Weight::caution && b.weight != source::Weight::caution;
                     });
    return result;
}

}  // namespace soilhold::loss
