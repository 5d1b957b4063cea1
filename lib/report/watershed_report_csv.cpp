#include "report/watershed_report.h"

#include <fmt/format.h>

#include <functional>

#include "report/csv_cell.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using units::Kind;
using watershed::Criterion;
using watershed::FieldResult;
using watershed::WatershedResult;

std::string number(const std::optional<double>& value) { return value ? fmt::format("{:.6g}", *value) : ""; }

/// A coordinate, to a centimetre.
std::string place(double value) { return fmt::format("{:.2f}", value); }

struct Column {
    std::string heading;
    std::function<std::string(const FieldResult&)> cell;
};

using Columns = std::vector<Column>;

template <class Member>
std::function<std::string(const FieldResult&)> of_rank(Criterion by, Member member) {
    return [by, member](const FieldResult& field) {
        const auto& rank = field.ranks[static_cast<std::size_t>(by)];
        return rank ? fmt::format("{:.4g}", static_cast<double>((*rank).*member)) : std::string();
    };
}

void add_loss(Columns& to, units::System system) {
    const bool us = system == units::System::us;
    const auto in = [system](Kind kind, const std::optional<double>& si) {
        return number(si ? std::optional(units::in_unit(kind, *si, system)) : si);
    };
    const auto ton = [us](const std::optional<double>& t) {
        return number(t ? std::optional(us ? *t / units::tonne_per_short_ton : *t) : t);
    };
    const auto if_T = [](const FieldResult& field, double share) { return field.tolerance ? number(share) : ""; };
    const auto if_delivered = [](const FieldResult& field, double t) {
        return field.delivered_t ? std::optional(t) : std::nullopt;
    };
    const std::string per = us ? "_t_ac" : "_t_ha", t = us ? "_short_tons" : "_tonnes", area = us ? "_ac" : "_ha",
                      length = us ? "_ft" : "_m", bare = us ? "short_tons" : "tonnes";
    const Columns more = {
        {"area" + area, [=](const auto& f) { return in(Kind::area, f.area_ha); }},
        {"on_map" + area, [=](const auto& f) { return in(Kind::area, f.on_grid.area_ha); }},
        {"loss" + per, [=](const auto& f) { return in(Kind::soil_loss, f.on_grid.mean); }},
        {bare, [=](const auto& f) { return ton(f.on_grid.total_t); }},
        {"tolerance" + per, [=](const auto& f) { return in(Kind::soil_loss, f.tolerance); }},
        {"times_T", [](const auto& f) { return number(f.times_T); }},
        {"share_above_T", [=](const auto& f) { return if_T(f, f.on_grid.share_above_T); }},
        {"share_above_2T", [=](const auto& f) { return if_T(f, f.on_grid.share_above_2T); }},
        {"worst_tenth" + per, [=](const auto& f) { return in(Kind::soil_loss, f.on_grid.worst_tenth_mean); }},
        {"worst_tenth_share_of_tons", [](const auto& f) { return number(f.on_grid.worst_tenth_share); }},
        {"worst_tenth_part", [](const auto& f) { return f.worst_where; }},
        {"worst_tenth_x", [](const auto& f) { return place(f.worst_at.x); }},
        {"worst_tenth_y", [](const auto& f) { return place(f.worst_at.y); }},
        {"avoidable" + t, [=](const auto& f) { return ton(f.avoidable_t); }},
        {"best_practice", [](const auto& f) { return csv_cell(f.best_practice); }},
        {"way_to_channel" + length, [=](const auto& f) { return in(Kind::length, f.way_m); }},
        {"delivered" + t, [=](const auto& f) { return ton(f.delivered_t); }},
        {"delivered_low" + t, [=](const auto& f) { return ton(if_delivered(f, f.delivered_low_t)); }},
        {"delivered_high" + t, [=](const auto& f) { return ton(if_delivered(f, f.delivered_high_t)); }},
        {"delivered_avoidable" + t, [=](const auto& f) { return ton(f.delivered_avoidable_t); }}};
    to.insert(to.end(), more.begin(), more.end());
}

void add_factors(Columns& to, units::System system) {
    const std::string name = system == units::System::us ? "_US" : "_SI";
    const Columns more = {
        {"R" + name, [=](const auto& f) { return number(units::in_unit(Kind::erosivity, f.R, system)); }},
        {"K" + name, [=](const auto& f) { return number(units::in_unit(Kind::erodibility, f.K, system)); }},
        {"LS", [](const auto& f) { return number(f.LS); }},
        {"C", [](const auto& f) { return number(f.C); }},
        {"P", [](const auto& f) { return number(f.P); }},
        {"rotation", [](const auto& f) { return csv_cell(f.rotation); }},
        {"m", [](const auto& f) { return f.structure ? number(f.structure->m) : ""; }},
        {"m_low", [](const auto& f) { return f.structure ? number(f.structure->low_80) : ""; }},
        {"m_high", [](const auto& f) { return f.structure ? number(f.structure->high_80) : ""; }},
        {system == units::System::us ? "loss_without_tests_t_ac" : "loss_without_tests_t_ha",
         [=](const auto& f) {
             return f.structure
                        ? number(units::in_unit(Kind::soil_loss, f.on_grid.mean / watershed::times_of(f), system))
                        : "";
         }},
        {"soil", [](const auto& f) { return csv_cell(f.main_soil); }},
        {"gap_share", [](const auto& f) { return number(f.on_grid.gap_share); }},
        {"lacks", [](const auto& f) { return csv_cell(watershed::lacks_of(f)); }}};
    to.insert(to.end(), more.begin(), more.end());
}

Columns columns_of(const WatershedResult& result, units::System system) {
    using watershed::Rank;
    Columns columns = {{"place", of_rank(result.rank_by, &Rank::place)},
                       {"field", [](const auto& f) { return csv_cell(f.name); }},
                       {"id", [](const auto& f) { return fmt::format("{}", f.id); }},
                       {"tillage", [](const auto& f) { return csv_cell(f.tillage); }}};
    add_loss(columns, system);
    add_factors(columns, system);
    columns.push_back({"place_low", of_rank(result.rank_by, &Rank::likely_first)});
    columns.push_back({"place_high", of_rank(result.rank_by, &Rank::likely_last)});
    const std::string top = fmt::format("chance_in_top_{}", result.visits);
    columns.push_back({top, of_rank(result.rank_by, &Rank::chance_in_top)});
    columns.push_back({"tie_group", of_rank(result.rank_by, &Rank::tie_group)});
    for (const Criterion by : watershed::criteria) {
        const std::string name = watershed::criterion_names[static_cast<std::size_t>(by)];
        columns.push_back({"place_by_" + name, of_rank(by, &Rank::place)});
        columns.push_back({top + "_by_" + name, of_rank(by, &Rank::chance_in_top)});
        columns.push_back({"tie_group_by_" + name, of_rank(by, &Rank::tie_group)});
    }
    columns.push_back({"left_out_because", [](const auto&) { return std::string(); }});
    columns.push_back({"remarks", [](const auto& f) { return csv_cell(watershed::words_of_remarks(f)); }});
    return columns;
}

}  // namespace

std::string watershed_csv(const WatershedResult& result, units::System system) {
    const Columns columns = columns_of(result, system);
    std::string text;
    const auto row = [&](auto cell) {
        for (std::size_t i = 0; i < columns.size(); ++i) text += (i == 0 ? "" : ",") + cell(columns[i]);
        text += "\n";
    };
    row([](const Column& column) { return column.heading; });
    for (const FieldResult* field : in_order(result)) row([&](const Column& column) { return column.cell(*field); });
    for (const raster::LeftOut& out : result.fields.left_out)
        row([&](const Column& column) {
            return column.heading == "field"              ? csv_cell(out.name)
                   : column.heading == "id"               ? fmt::format("{}", out.id)
                   : column.heading == "left_out_because" ? csv_cell(out.why)
                                                          : std::string();
        });
    return text;
}

}  // namespace soilhold::report
