#include "report/rain_tables.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "report/csv_cell.h"
#include "source/citation.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using factors::JudgedStorm;
using factors::YearOfRain;
using units::Kind;
using units::System;
using Json = nlohmann::ordered_json;

Json interval(const spread::Interval& value) {
    return {{"central", value.central}, {"low", value.low}, {"high", value.high}};
}

Json years(const std::vector<YearOfRain>& list) {
    Json json = Json::array();
    for (const YearOfRain& year : list)
        json.push_back({{"year", year.year},
                        {"recorded_share", year.recorded_share},
                        {"rain_mm", year.rain_mm},
                        {"storms", year.storms},
                        {"EI30_brown_foster", year.EI30_brown_foster},
                        {"EI30_537", year.EI30_537}});
    return json;
}

Json storm(const JudgedStorm& judged) {
    const factors::Storm& one = judged.storm;
    return {{"start", stamp_of(one.start_min)},
            {"end", stamp_of(one.end_min)},
            {"depth_mm", one.depth_mm},
            {"hours", (one.end_min - one.start_min) / 60.0},
            {"largest_15_min_mm", one.largest_15_min_mm},
            {"I30_mm_per_h", one.I30_mm_per_h},
            {"energy_brown_foster", one.energy_brown_foster},
            {"energy_537", one.energy_537},
            {"EI30_brown_foster", one.EI30_brown_foster()},
            {"EI30_537", one.EI30_537()},
            {"counted", judged.counted},
            {"why_not", judged.counted ? Json(nullptr) : Json(why_left_out(judged, System::metric))},
            {"may_be_larger", judged.cut_short}};
}

Json origin(std::string_view key) {
    const source::Origin one = source::origin_of(key);
    return {{"from", one.from}, {"citation", one.citation}, {"standing", source::words_for(one.standing)}};
}

}  // namespace

std::string rain_json(const RainResult& result, const std::string& version) {
    Json json;
    json["format"] = 1;
    json["program"] = "soilhold";
    json["version"] = version;
    json["command"] = "rain";
    json["interval"] = "central 80 %";
    json["units"] = {{"depth", "mm"}, {"energy", "MJ/ha"}, {"EI30", "MJ mm/(ha h)"}, {"R", "MJ mm/(ha h yr)"}};
    if (result.long_term) {
        const auto& R = *result.long_term;
        json["R"] = interval(R.R_brown_foster);
        json["R"]["unit"] = "MJ mm/(ha h yr)";
        json["R"]["years"] = R.years.size();
        json["R"]["calendar_years"] = R.calendar_years;
        json["R"]["year_to_year_variation"] = R.year_to_year;
        json["R"]["energy"] = origin("unit-energy-brown-foster");
        json["R_537"] = interval(R.R_537);
        json["R_537"]["unit"] = "MJ mm/(ha h yr)";
        json["R_537"]["energy"] = origin("unit-energy-537");
    } else {
        json["R"] = nullptr;
        json["R_537"] = nullptr;
    }
    json["interval_correction"] = {
        {"interval_min", result.record.fixed_interval_min ? Json(*result.record.fixed_interval_min) : Json(nullptr)},
        {"factor", result.erosivity.interval_factor},
        {"in", "R, years and half_months; not in storms"},
        {"source", "Yin et al. 2007, Catena 70:306-312: 1.014 at 5 minutes, 1.730 at 60"},
        {"standing", "ends read in the source, between them our assumption"}};
    json["years"] = years(result.erosivity.years);
    if (result.long_term && !result.long_term->calendar_years)
        json["twelve_months"] = {{"from", stamp_of(result.record.whole.start_min).substr(0, 10)},
                                 {"years", years(result.long_term->years)}};
    json["half_months"] = result.erosivity.half_month_share;
    json["storms"] = Json::array();
    for (const JudgedStorm& judged : result.erosivity.storms) json["storms"].push_back(storm(judged));
    json["recorded"] = {{"file", result.file},
                        {"start", stamp_of(result.record.whole.start_min)},
                        {"end", stamp_of(result.record.whole.end_min)},
                        {"rows", result.rows},
                        {"missing_values", result.missing_values},
                        {"missing_days", result.erosivity.missing_days}};
    json["recorded"]["missing"] = Json::array();
    for (const factors::Period& gap : result.record.missing)
        json["recorded"]["missing"].push_back({{"start", stamp_of(gap.start_min)}, {"end", stamp_of(gap.end_min)}});
    json["read_as"] = Json::object();
    for (const auto& [what, how] : result.read_as) json["read_as"][what] = how;
    json["remarks"] = Json::array();
    for (const source::Remark& remark : all_remarks(result))
        json["remarks"].push_back({{"weight", remark.weight == source::Weight::caution ? "caution" : "note"},
                                   {"code", remark.code},
                                   {"text", remark.text}});
    // A file may be named in another encoding; its bytes must not spoil the object.
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string rain_csv(const RainResult& result, System system) {
    const bool us = system == System::us;
    const double depth_unit = us ? 25.4 : 1.0;
    const double energy_unit = us ? units::mj_ha_per_ft_tonf_acre : 1.0;
    const auto ei = [&](double si) { return units::in_unit(Kind::erosivity, si, system); };
    std::string text = fmt::format(
        "record,start,end,depth_{0},hours,I30_{1},energy_brown_foster_{2},EI30_brown_foster_{3},EI30_537_{3},counted,"
        "share,note\n",
        us ? "in" : "mm", us ? "in_per_h" : "mm_per_h", us ? "ft_tonf_per_ac" : "MJ_per_ha", us ? "US" : "SI");
    if (result.long_term) {
        const auto& R = *result.long_term;
        const auto add = [&](const char* name, double brown_foster, double by_537) {
            text +=
                fmt::format("{},,,,,,,{:.6g},{:.6g},,,{} years\n", name, ei(brown_foster), ei(by_537), R.years.size());
        };
        add("R", R.R_brown_foster.central, R.R_537.central);
        add("R low (10 %)", R.R_brown_foster.low, R.R_537.low);
        add("R high (90 %)", R.R_brown_foster.high, R.R_537.high);
    }
    for (const JudgedStorm& judged : result.erosivity.storms) {
        const factors::Storm& one = judged.storm;
        std::string note = why_left_out(judged, system);
        if (judged.cut_short) note += std::string(note.empty() ? "" : "; ") + "time without record within six hours";
        text +=
            fmt::format("storm,{},{},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{:.6g},{},,{}\n", stamp_of(one.start_min),
                        stamp_of(one.end_min), one.depth_mm / depth_unit, (one.end_min - one.start_min) / 60.0,
                        one.I30_mm_per_h / depth_unit, one.energy_brown_foster / energy_unit,
                        ei(one.EI30_brown_foster()), ei(one.EI30_537()), judged.counted ? "yes" : "no", csv_cell(note));
    }
    const auto add_years = [&](const char* record, const std::vector<YearOfRain>& list, const std::string& note) {
        for (const YearOfRain& year : list)
            text += fmt::format("{},{},,{:.6g},,,,{:.6g},{:.6g},{},{:.6g},{}\n", record, year.year,
                                year.rain_mm / depth_unit, ei(year.EI30_brown_foster), ei(year.EI30_537), year.storms,
                                year.recorded_share, note);
    };
    add_years("year", result.erosivity.years, "share is recorded");
    if (result.long_term && !result.long_term->calendar_years)
        add_years("twelve months", result.long_term->years,
                  "from " + stamp_of(result.record.whole.start_min).substr(0, 10) + " on; share is recorded");
    for (std::size_t i = 0; i < 24; ++i)
        text +=
            fmt::format("half month,{:02d}-{},{},,,,,,,,{:.6g},share of EI30\n", i / 2 + 1, i % 2 == 0 ? "01" : "16",
                        i % 2 == 0 ? fmt::format("{:02d}-15", i / 2 + 1) : std::string("end of month"),
                        result.erosivity.half_month_share[i]);
    for (const factors::Period& gap : result.record.missing)
        text += fmt::format("missing,{},{},,{:.6g},,,,,,,not recorded\n", stamp_of(gap.start_min),
                            stamp_of(gap.end_min), (gap.end_min - gap.start_min) / 60.0);
    return text;
}

}  // namespace soilhold::report
