#include "report/json_report.h"

#include <nlohmann/json.hpp>

#include "report/cautions.h"

namespace soilhold::report {

namespace {

using Json = nlohmann::ordered_json;
using spread::Interval;

Json interval(const Interval& value) { return {{"central", value.central}, {"low", value.low}, {"high", value.high}}; }

Json interval(const Interval& value, std::string_view unit) {
    Json json = interval(value);
    json["unit"] = unit;
    return json;
}

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json origin(const source::Origin& origin) {
    return {{"from", origin.from}, {"citation", origin.citation}, {"standing", source::words_for(origin.standing)}};
}

Json remarks(const source::Remarks& list) {
    Json json = Json::array();
    for (const source::Remark& remark : list)
        json.push_back({{"weight", remark.weight == source::Weight::caution ? "caution" : "note"},
                        {"code", remark.code},
                        {"text", remark.text}});
    return json;
}

Json steps(const source::Steps& list) {
    Json json = Json::array();
    for (const source::Step& step : list) {
        Json one = {{"symbol", step.symbol},
                    {"words", step.words},
                    {"equation", step.equation},
                    {"working", step.working},
                    {"value", step.value},
                    {"unit", step.unit},
                    {"source", step.origin.from},
                    {"citation", step.origin.citation},
                    {"standing", source::words_for(step.origin.standing)}};
        if (step.upper) {
            one["upper_working"] = step.upper_working;
            one["upper"] = *step.upper;
        }
        json.push_back(std::move(one));
    }
    return json;
}

Json factor(const loss::FactorValue& value, bool explain) {
    Json json = {{"value", value.value.central},
                 {"unit", value.unit},
                 {"low", value.value.low},
                 {"high", value.value.high},
                 {"source", value.origin.from},
                 {"standing", source::words_for(value.origin.standing)},
                 {"citation", value.origin.citation},
                 {"spread_source", value.spread_origin.from},
                 {"spread_standing", source::words_for(value.spread_origin.standing)}};
    if (explain) json["steps"] = steps(value.steps);
    return json;
}

Json tests(const soiltest::Summary& summary) {
    Json json = Json::object();
    if (summary.slake) {
        const soiltest::SlakeSummary& slake = *summary.slake;
        json["slake"] = {{"clods", slake.clods},
                         {"spots", slake.spots},
                         {"by_class", slake.by_class},
                         {"mean_class", slake.mean_class},
                         {"standard_error", or_null(slake.standard_error)},
                         {"held", slake.held},
                         {"fell_apart", slake.fell_apart},
                         {"left_out", slake.left_out}};
    }
    if (summary.slump)
        json["slump"] = {
            {"holds", summary.slump->holds}, {"partial", summary.slump->partial}, {"slurry", summary.slump->slurry}};
    const auto mean = [&](const char* name, const std::optional<soiltest::MeanSummary>& value) {
        if (value)
            json[name] = {
                {"spots", value->spots}, {"mean", value->mean}, {"standard_error", or_null(value->standard_error)}};
    };
    mean("water_stable_pct", summary.water_stable_pct);
    mean("mean_weight_diameter_mm", summary.mean_weight_diameter_mm);
    return json;
}

Json structure(const structure::StructureFactor& factor) {
    if (!factor.assessment) return {{"used", false}, {"why_not", factor.why_not}};
    const structure::Assessment& a = *factor.assessment;
    return {{"used", true},
            {"mode", a.mode == structure::CountingMode::credited ? "credited" : "cover only"},
            {"stable_pct", a.W},
            {"expected_stable_pct", a.W_ref},
            {"links",
             {{"nomograph", a.m_nomograph},
              {"unstable_fraction", or_null(a.m_unstable_fraction)},
              {"interrill", a.m_interrill}}},
            {"pooled", a.m_pooled},
            {"shrinkage", a.shrinkage},
            {"m", a.m},
            {"interval_90", {{"low", a.low_90}, {"high", a.high_90}}},
            {"standing", source::words_for(source::Standing::our_assumption)}};
}

Json leaving(const std::optional<loss::Leaving>& value, bool explain) {
    if (!value) return nullptr;
    return {{"share", factor(value->share, explain)}, {"loss", interval(value->loss, "t/(ha yr)")}};
}

Json slope_parts(const loss::FieldEstimate& estimate) {
    Json json = Json::array();
    for (const loss::SlopePartLoss& part : estimate.slope_parts)
        json.push_back({{"length_m", part.length_m},
                        {"steepness", part.gradient},
                        {"LS", part.LS},
                        {"loss", interval(part.loss, "t/(ha yr)")},
                        {"share", part.share}});
    return json;
}

Json consequences(const loss::Consequences& follows) {
    const auto content = [](double kg_ha) { return Json{{"value", kg_ha}, {"unit", "kg/(ha yr)"}}; };
    Json delivered = Json::array();
    for (const loss::Delivered& one : follows.delivered)
        delivered.push_back(
            {{"ratio", one.ratio}, {"loss", interval(one.loss, "t/(ha yr)")}, {"source", origin(one.relation)}});
    return {
        {"years_per_cm", interval(follows.years_per_cm)},
        {"erodibility_index", follows.erodibility_index ? Json{{"value", *follows.erodibility_index},
                                                               {"source", origin(source::origin_of("highly-erodible"))},
                                                               {"determination", false}}
                                                        : Json(nullptr)},
        {"nitrogen", content(follows.nitrogen_kg_ha)},
        {"phosphorus", content(follows.phosphorus_kg_ha)},
        {"organic_matter", follows.organic_matter_kg_ha ? content(*follows.organic_matter_kg_ha) : Json(nullptr)},
        {"contents_source", origin(source::origin_of("soil-value"))},
        {"delivered", std::move(delivered)}};
}

Json changes(const loss::FieldEstimate& field, bool explain) {
    Json json = Json::array();
    for (const loss::ChangeResult& change : field.changes) {
        Json one = {
            {"name", change.name},
            {"factors",
             {{"LS", factor(change.LS, explain)}, {"C", factor(change.C, explain)}, {"P", factor(change.P, explain)}}},
            {"loss", interval(change.loss, "t/(ha yr)")},
            {"ratio", interval(change.ratio)},
            {"saved", interval(change.saved, "t/(ha yr)")},
            {"leaving", leaving(change.leaving, explain)},
            {"remarks", remarks(change.remarks)}};
        if (!change.note.empty()) one["note"] = change.note;
        if (explain) one["steps"] = steps(change.steps);
        json.push_back(std::move(one));
    }
    return json;
}

Json field(const loss::FieldEstimate& estimate, bool explain) {
    Json factors = Json::object();
    for (const loss::FactorValue& value : estimate.factors) factors[value.symbol] = factor(value, explain);
    Json doubt = Json::array();
    for (const loss::DoubtShare& share : estimate.doubt)
        doubt.push_back({{"input", share.input}, {"share", share.share}});
    Json json = {
        {"name", estimate.field.name},
        {"farm", estimate.field.farm},
        {"soil", estimate.field.soil_name},
        {"map_unit", estimate.field.map_unit},
        {"factors", std::move(factors)},
        {"slope_method", estimate.slope_method},
        {"loss", interval(estimate.loss, "t/(ha yr)")},
        {"loss_without_tests", interval(estimate.loss_without_tests, "t/(ha yr)")},
        {"tolerance", or_null(estimate.tolerance)},
        {"loss_over_tolerance", or_null(estimate.loss_over_tolerance)},
        {"largest_cover_times_practice", or_null(estimate.largest_cover_times_practice)},
        {"total", estimate.total ? interval(*estimate.total, "t/yr") : Json(nullptr)},
        {"leaving", leaving(estimate.leaving, explain)},
        {"slope_parts", slope_parts(estimate)},
        {"consequences", consequences(estimate.consequences)},
        {"depth", interval(estimate.depth_mm_per_year, "mm/yr")},
        {"bulk_density",
         {{"value", estimate.bulk_density}, {"unit", "t/m3"}, {"source", origin(estimate.bulk_density_origin)}}},
        {"tests", tests(estimate.tests)},
        {"structure", structure(estimate.structure)},
        {"changes", changes(estimate, explain)},
        {"doubt", std::move(doubt)},
        {"remarks", remarks(estimate.remarks)},
        {"cautions", cautions()}};
    if (explain) json["steps"] = steps(estimate.steps);
    return json;
}

Json pair(const change::Comparison& comparison, const change::Pair& pair, bool explain) {
    Json reasons = Json::array(), redo = Json::array();
    for (const soiltest::Reason& reason : pair.fairness.reasons) {
        reasons.push_back(reason.text);
        if (!reason.redo.empty()) redo.push_back(reason.redo);
    }
    Json json = {{"from", comparison.fields[pair.from].field.name},
                 {"to", comparison.fields[pair.to].field.name},
                 {"ratio", pair.ratio ? interval(*pair.ratio) : Json(nullptr)},
                 {"saved", pair.saved ? interval(*pair.saved, "t/(ha yr)") : Json(nullptr)},
                 {"ratio_without_tests", or_null(pair.ratio_without_tests)},
                 {"fair", soiltest::words_for(pair.fairness.grade)},
                 {"reasons", std::move(reasons)},
                 {"redo", std::move(redo)},
                 {"shared", pair.shared}};
    if (pair.tests)
        json["tests"] = {{"mean_class_difference", pair.tests->mean_class_difference},
                         {"chance_second_higher", pair.tests->chance_second_higher},
                         {"p_value", pair.tests->p_value},
                         {"counts", pair.tests->counts_sentence},
                         {"agreement", pair.agreement}};
    if (pair.structure)
        json["structure"] = {{"ratio", pair.structure->ratio},
                             {"interval_90", {{"low", pair.structure->low_90}, {"high", pair.structure->high_90}}}};
    if (pair.structure && explain) json["structure"]["steps"] = steps(pair.structure->steps);
    if (explain) json["steps"] = steps(pair.steps);
    return json;
}

}  // namespace

std::string json_report(const change::Comparison& comparison, std::string_view command, std::string_view version,
                        bool explain) {
    Json json = {{"format", json_format},        {"program", "soilhold"},      {"version", version},
                 {"command", command},           {"interval", "central 80 %"}, {"draws", comparison.draws.draws},
                 {"seed", comparison.draws.seed}};
    json["fields"] = Json::array();
    for (const loss::FieldEstimate& estimate : comparison.fields) json["fields"].push_back(field(estimate, explain));
    if (command == "compare") {
        json["pairs"] = Json::array();
        for (const change::Pair& one : comparison.pairs) json["pairs"].push_back(pair(comparison, one, explain));
    }
    return json.dump(2) + "\n";
}

}  // namespace soilhold::report
