#include "report/cover_tables.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "report/cautions.h"
#include "report/cover_report.h"
#include "report/csv_cell.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using rotation::Calendar;
using rotation::CalendarRow;
using units::Kind;
using units::System;
using Json = nlohmann::ordered_json;

Json interval(const spread::Interval& value, const char* unit) {
    return {{"central", value.central}, {"low", value.low}, {"high", value.high}, {"unit", unit}};
}

Json origin(const source::Origin& one) {
    return {{"from", one.from}, {"citation", one.citation}, {"standing", source::words_for(one.standing)}};
}

/// "04-16": the first day of a half-month.
std::string month_and_day(std::size_t half_month) {
    return fmt::format("{:02d}-{}", half_month / 2 + 1, half_month % 2 == 0 ? "01" : "16");
}

/// Tons per hectare that leave in this half-month of this year of the rotation.
double loss_of(const CoverWay& way, const CalendarRow& row) {
    return way.loss.central * way.cover.calendar.years * share_of_loss(way.cover.calendar, row);
}

Json row_json(const CoverWay& way, const CalendarRow& row) {
    return {{"year", row.year},
            {"half_month", row.half_month + 1},
            {"begins", month_and_day(row.half_month)},
            {"happenings", row.happenings},
            {"cover_pct", row.cover_pct},
            {"canopy_pct", 100 * row.canopy},
            {"roughness_mm", row.roughness_mm},
            {"PLU", row.PLU},
            {"CC", row.CC},
            {"SC", row.SC},
            {"SR", row.SR},
            {"SLR", row.SLR},
            {"erosivity_share", row.erosivity_share},
            {"product", row.contribution},
            {"share_of_loss", share_of_loss(way.cover.calendar, row)},
            {"loss_t_ha", loss_of(way, row)}};
}

Json season_json(const Season& season) {
    return {{"begins", month_and_day(season.first)},
            {"last_half_month_begins", month_and_day((season.first + season.count - 1) % 24)},
            {"half_months", season.count},
            {"share_of_loss", season.loss},
            {"erosivity_share", season.rain},
            {"ground_shielded", season.shielded}};
}

Json way_json(const CoverWay& way, const Season& first_season) {
    const Calendar& calendar = way.cover.calendar;
    Json json = {{"name", way.name}, {"as_now", way.as_now}, {"rotation", way.rotation}, {"years", calendar.years}};
    json["C"] = interval(way.C.value, "1");
    json["C"]["origin"] = origin(way.C.origin);
    json["C"]["range_origin"] = origin(way.C.spread_origin);
    json["C_of_year"] = calendar.C_of_year;
    json["loss"] = interval(way.loss, "t/(ha yr)");
    json["season"] = season_json(season_of_loss(calendar));
    json["in_season_of_first"] = season_json(same_season(first_season, calendar));
    json["rows"] = Json::array();
    for (const CalendarRow& row : calendar.rows) json["rows"].push_back(row_json(way, row));
    return json;
}

}  // namespace

std::string cover_json(const std::vector<CoverOfField>& fields, const std::string& version) {
    Json json;
    json["format"] = 1;
    json["program"] = "soilhold";
    json["version"] = version;
    json["command"] = "cover";
    json["interval"] = "central 80 %";
    json["fields"] = Json::array();
    for (const CoverOfField& field : fields) {
        Json one = {{"name", field.estimate->field.name}, {"sentence", season_sentence(field)}};
        one["weather"] = {{"temperature", origin(field.temperature_origin)},
                          {"rain", origin(field.rain_origin)},
                          {"erosivity_share", origin(field.erosivity_origin)}};
        one["ways"] = Json::array();
        const Season season = season_of_loss(field.ways.front().cover.calendar);
        for (const CoverWay& way : field.ways) one["ways"].push_back(way_json(way, season));
        one["remarks"] = Json::array();
        for (const source::Remark& remark : cover_remarks(field))
            one["remarks"].push_back({{"weight", remark.weight == source::Weight::caution ? "caution" : "note"},
                                      {"code", remark.code},
                                      {"text", remark.text}});
        json["fields"].push_back(std::move(one));
    }
    json["cautions"] = cautions();
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string cover_csv(const std::vector<CoverOfField>& fields, System system) {
    const bool us = system == System::us;
    std::string text = fmt::format(
        "field,way,year,half_month,begins,happenings,cover_pct,canopy_pct,roughness_{},PLU,CC,SC,SR,SLR,"
        "erosivity_share,product,share_of_loss,loss_{}\n",
        us ? "in" : "mm", us ? "t_per_ac" : "t_per_ha");
    for (const CoverOfField& field : fields)
        for (const CoverWay& way : field.ways)
            for (const CalendarRow& row : way.cover.calendar.rows) {
                std::string happenings;
                for (const std::string& one : row.happenings) happenings += (happenings.empty() ? "" : "; ") + one;
                text += fmt::format(
                    "{},{},{},{},{},{},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},"
                    "{:.6g}\n",
                    csv_cell(field.estimate->field.name), csv_cell(way.name), row.year, row.half_month + 1,
                    month_and_day(row.half_month), csv_cell(happenings), row.cover_pct, 100 * row.canopy,
                    row.roughness_mm / (us ? 25.4 : 1.0), row.PLU, row.CC, row.SC, row.SR, row.SLR, row.erosivity_share,
                    row.contribution, share_of_loss(way.cover.calendar, row),
                    units::in_unit(Kind::soil_loss, loss_of(way, row), system));
            }
    return text;
}

}  // namespace soilhold::report
