#include "report/watershed_report.h"

#include <fmt/format.h>

#include "report/csv_cell.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using units::Kind;

std::string number(const std::optional<double>& value) { return value ? fmt::format("{:.6g}", *value) : ""; }

}  // namespace

std::string watershed_csv(const watershed::WatershedResult& result, units::System system) {
    const bool us = system == units::System::us;
    const auto ton = [&](const std::optional<double>& t) {
        return number(t ? std::optional(us ? *t / units::tonne_per_short_ton : *t) : t);
    };
    const auto in = [&](Kind kind, const std::optional<double>& si) {
        return number(si ? std::optional(units::in_unit(kind, *si, system)) : si);
    };
    const std::string per = us ? "t_ac" : "t_ha", t = us ? "short_tons" : "tonnes", area = us ? "ac" : "ha",
                      length = us ? "ft" : "m", system_name = us ? "US" : "SI";
    std::string text = fmt::format(
        "place,field,id,tillage,area_{3},on_map_{3},loss_{1},{2},tolerance_{1},times_T,share_above_T,worst_tenth_{1},"
        "avoidable_{2},best_practice,way_to_channel_{4},delivered_{2},delivered_low_{2},delivered_high_{2},"
        "delivered_avoidable_{2},R_{5},K_{5},LS,C,P,soil,gap_share,place_low,place_high,chance_in_top_{0},tie_group,"
        "place_by_loss,place_by_tons,place_by_times_T,place_by_avoidable,place_by_delivered,left_out_because,remarks\n",
        result.visits, per, t, area, length, system_name);
    for (const watershed::FieldResult* field : in_order(result)) {
        const watershed::FieldOnGrid& grid = field->on_grid;
        const auto& rank = field->ranks[static_cast<std::size_t>(result.rank_by)];
        const bool has_T = field->tolerance.has_value(), ways = field->delivered_t.has_value();
        const auto if_way = [&](double value) { return ways ? std::optional(value) : std::nullopt; };
        std::string remarks;
        for (const source::Remark& remark : field->remarks) remarks += (remarks.empty() ? "" : " ") + remark.text;
        text += fmt::format("{},{},{},{},", rank ? std::to_string(rank->place) : "", csv_cell(field->name), field->id,
                            csv_cell(field->tillage));
        text += fmt::format("{},{},{},{},{},{},{},{},", in(Kind::area, field->area_ha), in(Kind::area, grid.area_ha),
                            in(Kind::soil_loss, grid.mean), ton(grid.total_t), in(Kind::soil_loss, field->tolerance),
                            number(field->times_T), has_T ? number(grid.share_above_T) : "",
                            in(Kind::soil_loss, grid.worst_tenth_mean));
        text +=
            fmt::format("{},{},{},{},{},{},{},", ton(field->avoidable_t), csv_cell(field->best_practice),
                        in(Kind::length, field->way_m), ton(field->delivered_t), ton(if_way(field->delivered_low_t)),
                        ton(if_way(field->delivered_high_t)), ton(field->delivered_avoidable_t));
        text += fmt::format("{},{},{},{},{},{},{},", in(Kind::erosivity, field->R), in(Kind::erodibility, field->K),
                            number(field->LS), number(field->C), number(field->P), csv_cell(field->main_soil),
                            number(grid.gap_share));
        text += rank ? fmt::format("{},{},{:.3f},{},", rank->likely_first, rank->likely_last, rank->chance_in_top,
                                   rank->tie_group)
                     : ",,,,";
        for (const auto& other : field->ranks) text += (other ? std::to_string(other->place) : "") + ",";
        text += fmt::format(",{}\n", csv_cell(remarks));
    }
    for (const raster::LeftOut& out : result.fields.left_out)
        text += fmt::format(",{},{},{}{},\n", csv_cell(out.name), out.id, std::string(32, ','), csv_cell(out.why));
    return text;
}

}  // namespace soilhold::report
