#include "report/watershed_report.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "report/cautions.h"
#include "report/pits_json.h"

namespace soilhold::report {

namespace {

using nlohmann::ordered_json;
using watershed::Criterion;

constexpr auto& criterion_keys = watershed::criterion_names;

ordered_json maybe(const std::optional<double>& value) { return value ? ordered_json(*value) : ordered_json(nullptr); }

ordered_json remarks_json(const source::Remarks& remarks) {
    ordered_json list = ordered_json::array();
    for (const source::Remark& remark : remarks)
        list.push_back({{"code", remark.code},
                        {"weight", remark.weight == source::Weight::caution ? "caution" : "note"},
                        {"text", remark.text},
                        {"place", remark.place}});
    return list;
}

ordered_json rank_json(const watershed::Rank& rank) {
    return {{"place", rank.place},
            {"chance_in_top", rank.chance_in_top},
            {"likely_first", rank.likely_first},
            {"likely_last", rank.likely_last},
            {"tie_group", rank.tie_group}};
}

ordered_json missing_json(const std::array<double, 5>& shares) {
    ordered_json missing = ordered_json::object();
    for (std::size_t i = 0; i < shares.size(); ++i) missing[watershed::factor_names[i]] = shares[i];
    return missing;
}

/// What the soil tests of a field say; its loss and tons are with this m.
ordered_json structure_json(const watershed::FieldResult& field) {
    const watershed::FieldStructure& found = *field.structure;
    return {{"m", found.m},
            {"low", found.low_80},
            {"high", found.high_80},
            {"loss_without_tests", field.on_grid.mean / found.m},
            {"tons_without_tests", field.on_grid.total_t / found.m},
            {"stable_pct", maybe(found.W)},
            {"expected_pct", maybe(found.W_ref)},
            {"file", found.file},
            {"soil", found.soil},
            {"why_not", found.why_not.empty() ? ordered_json(nullptr) : ordered_json(found.why_not)},
            {"remarks", remarks_json(found.remarks)}};
}

ordered_json rotations_json(const watershed::WatershedResult& result) {
    ordered_json list = ordered_json::array();
    for (const watershed::RotationWorked& one : result.rotations)
        list.push_back({{"name", one.name},
                        {"rotation", one.words},
                        {"years", one.cover.calendar.years},
                        {"cover_factor", one.cover.C.central},
                        {"low", one.low_80},
                        {"high", one.high_80},
                        {"fields", one.fields},
                        {"source", one.cover.C.origin.from},
                        {"standing", source::words_for(one.cover.C.origin.standing)}});
    return list;
}

ordered_json field_json(const watershed::FieldResult& field) {
    const watershed::FieldOnGrid& grid = field.on_grid;
    ordered_json one;
    one["id"] = field.id;
    one["name"] = field.name;
    one["tillage"] = field.tillage;
    one["area_ha"] = field.area_ha;
    one["on_map_ha"] = grid.area_ha;
    one["gap_share"] = grid.gap_share;
    one["missing"] = missing_json(field.missing);
    one["factors"] = {{"R", field.R}, {"K", field.K}, {"LS", field.LS}, {"C", field.C}, {"P", field.P}};
    one["main_soil"] = field.main_soil;
    one["rotation"] = field.rotation.empty() ? ordered_json(nullptr) : ordered_json(field.rotation);
    one["structure"] = field.structure ? structure_json(field) : ordered_json(nullptr);
    one["loss"] = grid.mean;
    one["tons"] = grid.total_t;
    one["tolerance"] = maybe(field.tolerance);
    one["times_T"] = maybe(field.times_T);
    one["share_above_T"] = field.tolerance ? ordered_json(grid.share_above_T) : ordered_json(nullptr);
    one["share_above_2T"] = field.tolerance ? ordered_json(grid.share_above_2T) : ordered_json(nullptr);
    one["worst_tenth"] = {{"loss", grid.worst_tenth_mean},
                          {"share_of_tons", grid.worst_tenth_share},
                          {"part", field.worst_where},
                          {"x", field.worst_at.x},
                          {"y", field.worst_at.y}};
    one["best_practice"] = field.best_practice.empty() ? ordered_json(nullptr) : ordered_json(field.best_practice);
    one["avoidable"] = maybe(field.avoidable_t);
    if (field.delivered_t)
        one["delivered"] = {{"way_m", maybe(field.way_m)},
                            {"tons", *field.delivered_t},
                            {"low", field.delivered_low_t},
                            {"high", field.delivered_high_t},
                            {"avoidable", maybe(field.delivered_avoidable_t)}};
    else
        one["delivered"] = nullptr;
    for (const watershed::Delivery relation : watershed::deliveries) {
        const auto& share = field.delivery[static_cast<std::size_t>(relation)];
        one["share_delivered"][watershed::delivery_names[static_cast<std::size_t>(relation)]] = maybe(share);
    }
    one["log_sd"] = {{"own", field.own_log_sd},
                     {"soil", field.group_log_sd},
                     {"rotation", field.rotation_log_sd},
                     {"delivery", field.delivery_log_sd}};
    one["ranks"] = ordered_json::object();
    for (std::size_t i = 0; i < field.ranks.size(); ++i)
        one["ranks"][criterion_keys[i]] = field.ranks[i] ? rank_json(*field.ranks[i]) : ordered_json(nullptr);
    one["remarks"] = remarks_json(field.remarks);
    return one;
}

/// The relations on offer and which was taken; the shares by each stand with the fields.
ordered_json delivery_json(const watershed::WatershedResult& result) {
    ordered_json relations = ordered_json::array();
    for (const watershed::Delivery relation : watershed::deliveries) {
        const source::Origin origin = watershed::origin_of_delivery(relation);
        relations.push_back({{"name", watershed::delivery_names[static_cast<std::size_t>(relation)]},
                             {"source", origin.from},
                             {"standing", source::words_for(origin.standing)}});
    }
    return {{"by", watershed::delivery_names[static_cast<std::size_t>(result.delivery)]},
            {"largest_basin_km2", result.largest_basin_km2},
            {"log_sd", watershed::delivery_log_sd()},
            {"log_sd_standing", source::words_for(source::Standing::our_assumption)},
            {"relations", std::move(relations)}};
}

ordered_json pits_json(const watershed::WatershedResult& result) {
    ordered_json pits;
    pits["filled"] = filled_json(result.pits.filled);
    pits["cut"] = result.pits.cut ? cut_json(*result.cuts, *result.pits.cut) : ordered_json(nullptr);
    return pits;
}

/// Share of the whole in the first fifth of the fields.
ordered_json top_fifth(const watershed::WatershedResult& result) {
    ordered_json shares = ordered_json::object();
    for (const Criterion by : {Criterion::tons, Criterion::avoidable, Criterion::delivered}) {
        std::vector<double> values;
        for (const watershed::FieldResult& field : result.fields.fields)
            if (const auto value = field.value(by)) values.push_back(*value);
        shares[criterion_keys[static_cast<std::size_t>(by)]] =
            values.empty() ? ordered_json(nullptr) : ordered_json(watershed::carried_by_top(values, 0.2));
    }
    return shares;
}

}  // namespace

std::string watershed_json(const watershed::WatershedResult& result, std::string_view version) {
    ordered_json json;
    json["format"] = watershed_json_format;
    json["command"] = "watershed";
    json["version"] = version;
    json["watershed"] = result.name;
    json["file"] = result.file;
    json["units"] = {{"loss", "t/(ha yr)"}, {"tons", "t/yr"}, {"tolerance", "t/(ha yr)"}};
    json["rank_by"] = criterion_keys[static_cast<std::size_t>(result.rank_by)];
    json["delivery"] = delivery_json(result);
    json["visits"] = result.visits;
    json["draws"] = result.draws;
    json["seed"] = result.seed;
    json["top_fifth_carries"] = top_fifth(result);
    ordered_json grid;
    grid["columns"] = result.placement.columns;
    grid["rows"] = result.placement.rows;
    grid["cell_m"] = result.cell_m;
    grid["coordinate_system"] = raster::crs_name(result.placement);
    grid["cells_with_height"] = result.cells_with_height;
    grid["channel_cells"] = result.channel_cells;
    grid["barrier_cells"] = result.barrier_cells;
    for (std::size_t i = 0; i < result.missing.size(); ++i)
        grid["cells_missing"][watershed::factor_names[i]] = result.missing[i];
    grid["channel_from_ha"] = result.channel_ha;
    grid["longest_slope_m"] = result.longest_m;
    grid["pits"] = pits_json(result);
    json["grid"] = std::move(grid);
    json["fields"] = ordered_json::array();
    for (const watershed::FieldResult* field : in_order(result)) json["fields"].push_back(field_json(*field));
    json["left_out"] = ordered_json::array();
    for (const raster::LeftOut& out : result.fields.left_out)
        json["left_out"].push_back(
            {{"id", out.id}, {"name", out.name}, {"why", out.why}, {"has_outline", !out.parts.empty()}});
    json["overlaps"] = ordered_json::array();
    for (const watershed::SharedGround& shared : result.overlaps)
        json["overlaps"].push_back({{"one", shared.one}, {"other", shared.other}, {"area_ha", shared.area_ha}});
    json["rotations"] = rotations_json(result);
    json["offered"] = ordered_json::array();
    for (const watershed::Practice& practice : result.offered)
        json["offered"].push_back(
            {{"name", practice.name},
             {"cover_factor", maybe(practice.cover_factor)},
             {"times", maybe(practice.times)},
             {"rotation",
              practice.rotation ? ordered_json(result.rotations[*practice.rotation].name) : ordered_json(nullptr)},
             {"practice_factor", maybe(practice.practice_factor)},
             {"source", practice.origin.from}});
    json["sources"] = ordered_json::array();
    for (const watershed::MapSource& one : result.sources)
        json["sources"].push_back({{"what", one.what},
                                   {"file", one.file},
                                   {"source", one.origin.from},
                                   {"standing", source::words_for(one.origin.standing)}});
    json["remarks"] = remarks_json(result.remarks);
    json["cautions"] = cautions();
    return json.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace soilhold::report
