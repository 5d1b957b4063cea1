#include "report/rain_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "report/columns.h"
#include "source/citation.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using factors::JudgedStorm;
using factors::YearOfRain;
using units::Kind;
using units::System;

constexpr std::array<const char*, 12> months = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::size_t largest_shown = 10;
constexpr std::size_t gaps_shown = 6;

std::string depth(double mm, System system) {
    return system == System::us ? fmt::format("{:.2f} in", mm / 25.4) : fmt::format("{:.1f} mm", mm);
}

/// A bare EI30 in the unit of the column head.
std::string ei(double si, System system) {
    const double value = units::in_unit(Kind::erosivity, si, system);
    return value < 10.0 ? fmt::format("{:.1f}", value) : fmt::format("{:.0f}", value);
}

std::string both(double si) {
    return fmt::format("{} SI ({} US)", units::figures(si, 2),
                       units::figures(units::in_unit(Kind::erosivity, si, System::us), 2));
}

std::string answer(const RainResult& result) {
    if (!result.long_term) {
        double sum = 0.0;
        int storms = 0;
        for (const YearOfRain& year : result.erosivity.years) sum += year.EI30_brown_foster, storms += year.storms;
        return wrapped(
            fmt::format("No R yet: no year, nor twelve months from the first day, is recorded to 95 % with a "
                        "storm that counts. What was recorded holds {} counted storms with an EI30 of {} "
                        "together; that is a part, not a yearly value.",
                        storms, both(sum)));
    }
    const auto& R = *result.long_term;
    std::string text = wrapped(fmt::format(
        "R about {} from {} of record, likely {} to {} SI ({} to {} US).", both(R.R_brown_foster.central),
        years_in_words(R), units::figures(R.R_brown_foster.low, 2), units::figures(R.R_brown_foster.high, 2),
        units::figures(units::in_unit(Kind::erosivity, R.R_brown_foster.low, System::us), 2),
        units::figures(units::in_unit(Kind::erosivity, R.R_brown_foster.high, System::us), 2)));
    const int n = static_cast<int>(R.years.size());
    text += "\n";
    text += wrapped(fmt::format(
        "R is an average of many years; {} are customary. The range (80 %) says how far {} may lie from it, with a "
        "variation of {:.0f} % from year to year (our assumption, moved by the years at hand). It leaves out the doubt "
        "of "
        "the gauge and of the energy equation.{}",
        factors::customary_years, n == 1 ? "one year" : fmt::format("the mean of {} years", n), 100.0 * R.year_to_year,
        n < 5 ? " With so few years, a map's R for the place is the better value." : ""));
    return text;
}

std::string methods(const RainResult& result) {
    std::string text = "\nHow it was worked\n";
    const auto line = [&](const std::string& what) { text += wrapped(what, "  ", "  "); };
    const auto standing = [](std::string_view key) {
        const source::Origin origin = source::origin_of(key);
        return std::string(source::words_for(origin.standing));
    };
    line(fmt::format("Energy by Brown & Foster 1987, as Handbook 703 takes it ({}).",
                     standing("unit-energy-brown-foster")));
    if (result.long_term)
        line(fmt::format("With the energy of Handbook 537 ({}) R would be {}: use it beside that handbook's maps.",
                         standing("unit-energy-537"), both(result.long_term->R_537.central)));
    line(
        "A storm ends when six hours bring less than 1.27 mm (0.05 in); it counts from 12.7 mm (0.5 in), or with "
        "6.35 mm (0.25 in) in 15 minutes (handbooks, from memory).");
    if (result.record.fixed_interval_min) {
        const double minutes = *result.record.fixed_interval_min;
        line(result.erosivity.interval_factor > 1.0
                 ? fmt::format("Depths every {:g} minutes blunt the peaks: R, years and half months hold EI30 times "
                               "{:.3f}, storms do not. Yin et al. 2007, 1.014 at 5 minutes and 1.730 at 60 (read); "
                               "between them our assumption.",
                               minutes, result.erosivity.interval_factor)
                 : fmt::format("Depths every {:g} minutes need no correction for blunted peaks.", minutes));
    }
    for (const auto& [what, how] : result.read_as) line(fmt::format("Read: {}: {}.", what, how));
    return text;
}

std::string years_table(const RainResult& result, System system) {
    const bool us = system == System::us;
    const auto rows_of = [&](const std::vector<YearOfRain>& years) {
        std::vector<std::vector<std::string>> rows = {
            {"year", "recorded", us ? "rain, in" : "rain, mm", "storms", us ? "EI30 US" : "EI30 SI", "Handbook 537"}};
        for (const YearOfRain& year : years)
            rows.push_back({std::to_string(year.year),
                            // A year that isn't full must not look full.
                            fmt::format("{:.0f} %", std::floor(100.0 * year.recorded_share + 1e-9)),
                            us ? fmt::format("{:.1f}", year.rain_mm / 25.4) : fmt::format("{:.0f}", year.rain_mm),
                            std::to_string(year.storms), ei(year.EI30_brown_foster, system),
                            ei(year.EI30_537, system)});
        return table(rows);
    };
    std::string text = "\nBy year (counted storms)\n" + rows_of(result.erosivity.years);
    if (result.long_term && !result.long_term->calendar_years)
        text += fmt::format("\nBy twelve months from {}, where full\n",
                            stamp_of(result.record.whole.start_min).substr(0, 10)) +
                rows_of(result.long_term->years);
    return text;
}

std::string half_months(const RainResult& result) {
    const auto& share = result.erosivity.half_month_share;
    double sum = 0.0;
    for (const double one : share) sum += one;
    if (!(sum > 0.0)) return "";
    std::vector<std::vector<std::string>> rows = {{"month", "1 to 15", "16 to end", "by its end"}};
    double until = 0.0;
    for (std::size_t month = 0; month < 12; ++month) {
        until += share[2 * month] + share[2 * month + 1];
        rows.push_back({months[month], fmt::format("{:.1f} %", 100.0 * share[2 * month]),
                        fmt::format("{:.1f} %", 100.0 * share[2 * month + 1]), fmt::format("{:.0f} %", 100.0 * until)});
    }
    return "\nWhen it falls: share of EI30 by half month\n" + table(rows);
}

std::string storms_table(const RainResult& result, System system) {
    const bool us = system == System::us;
    std::vector<const JudgedStorm*> counted;
    std::size_t out = 0, cut = 0;
    double out_mm = 0.0;
    for (const JudgedStorm& judged : result.erosivity.storms) {
        if (judged.cut_short) ++cut;
        if (judged.counted) {
            counted.push_back(&judged);
        } else {
            ++out;
            out_mm += judged.storm.depth_mm;
        }
    }
    std::stable_sort(counted.begin(), counted.end(), [](const JudgedStorm* a, const JudgedStorm* b) {
        return a->storm.EI30_brown_foster() > b->storm.EI30_brown_foster();
    });
    std::string text;
    if (!counted.empty()) {
        std::vector<std::vector<std::string>> rows = {
            {"start", "hours", us ? "in" : "mm", us ? "I30 in/h" : "I30 mm/h", "E MJ/ha", us ? "EI30 US" : "EI30 SI"}};
        for (std::size_t i = 0; i < std::min(largest_shown, counted.size()); ++i) {
            const factors::Storm& storm = counted[i]->storm;
            rows.push_back(
                {stamp_of(storm.start_min), fmt::format("{:.1f}", (storm.end_min - storm.start_min) / 60.0),
                 us ? fmt::format("{:.2f}", storm.depth_mm / 25.4) : fmt::format("{:.1f}", storm.depth_mm),
                 us ? fmt::format("{:.2f}", storm.I30_mm_per_h / 25.4) : fmt::format("{:.1f}", storm.I30_mm_per_h),
                 fmt::format("{:.2f}", storm.energy_brown_foster), ei(storm.EI30_brown_foster(), system)});
        }
        text += counted.size() > largest_shown
                    ? fmt::format("\nThe {} largest of {} storms that count\n", largest_shown, counted.size())
                    : std::string("\nStorms that count, largest first\n");
        text += table(rows);
    }
    text +=
        wrapped(fmt::format("{} storms with {} together are left out, as the rule asks: less than {} altogether and "
                            "less than {} within 15 minutes. --csv lists every storm.",
                            out, depth(out_mm, system), depth(12.7, system), depth(6.35, system)),
                "  ", "  ");
    if (cut > 0)
        text +=
            wrapped(fmt::format("Storms that stand within six hours of a time without record and may have been larger: "
                                "{}.",
                                cut),
                    "  ", "  ");
    return text;
}

std::string coverage(const RainResult& result) {
    const auto& record = result.record;
    const double days = (record.whole.end_min - record.whole.start_min) / 1440.0;
    std::string text = "\nWhat was recorded\n";
    text += wrapped(fmt::format("{} to {}: {:.1f} years, {} rows, {} missing values, {:.1f} days without record.",
                                stamp_of(record.whole.start_min), stamp_of(record.whole.end_min), days / 365.25,
                                result.rows, result.missing_values, result.erosivity.missing_days),
                    "  ", "  ");
    std::vector<factors::Period> longest = record.missing;
    std::stable_sort(longest.begin(), longest.end(), [](const factors::Period& a, const factors::Period& b) {
        return a.end_min - a.start_min > b.end_min - b.start_min;
    });
    std::vector<std::vector<std::string>> rows = {{"without record from", "to", "hours"}};
    for (std::size_t i = 0; i < std::min(gaps_shown, longest.size()); ++i)
        rows.push_back({stamp_of(longest[i].start_min), stamp_of(longest[i].end_min),
                        fmt::format("{:.1f}", (longest[i].end_min - longest[i].start_min) / 60.0)});
    if (rows.size() > 1) text += table(rows);
    if (longest.size() > gaps_shown)
        text += fmt::format("  and {} shorter ones; --csv lists them.\n", longest.size() - gaps_shown);
    return text;
}

}  // namespace

std::string stamp_of(double minute) {
    const auto whole = static_cast<long long>(std::floor(minute + 1e-6));
    const auto day = static_cast<int>(std::floor(static_cast<double>(whole) / 1440.0));
    const auto of_day = static_cast<int>(whole - 1440LL * day);
    const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
    return fmt::format("{:04d}-{:02d}-{:02d} {:02d}:{:02d}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), of_day / 60,
                       of_day % 60);
}

std::string why_left_out(const JudgedStorm& judged, System system) {
    if (judged.counted) return "";
    return fmt::format("too little rain: {} in all and {} in 15 minutes", depth(judged.storm.depth_mm, system),
                       depth(judged.storm.largest_15_min_mm, system));
}

source::Remarks all_remarks(const RainResult& result) {
    source::Remarks all = result.file_remarks;
    for (const source::Remark& remark : result.erosivity.remarks)
        // Twelve months on end stand in for the calendar year, and the answer says so.
        if (!(result.long_term && remark.code == "record-no-full-year")) all.push_back(remark);
    return all;
}

RainResult rain_result(factors::GaugeRecord record) {
    RainResult result;
    result.record = std::move(record);
    result.erosivity = factors::erosivity_of_record(result.record);
    result.long_term = factors::long_term_erosivity(result.record, result.erosivity);
    return result;
}

std::string rain_text(const RainResult& result, System system) {
    std::string text = answer(result);
    const source::Remarks remarks = all_remarks(result);
    std::string said;
    for (const source::Weight weight : {source::Weight::caution, source::Weight::note})
        for (const source::Remark& remark : remarks)
            // The answer and the methods say these at length.
            if (remark.weight == weight && remark.code != "record-short" && remark.code != "record-interval")
                said += wrapped(
                    fmt::format("{}{} [{}]", weight == source::Weight::caution ? "! " : "- ", remark.text, remark.code),
                    "", "  ");
    if (!said.empty()) text += "\n" + said;
    text += years_table(result, system) + half_months(result) + storms_table(result, system) + coverage(result) +
            methods(result);
    text += "\n" + wrapped(
                       "Rain only: snowmelt, irrigation and wind are not in R. Where the local conservation office "
                       "has an R for the place, theirs holds.");
    return text;
}

}  // namespace soilhold::report
