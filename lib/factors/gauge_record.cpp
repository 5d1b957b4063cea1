#include "factors/gauge_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <utility>

namespace soilhold::factors {

namespace {

constexpr double minutes_a_day = 1440.0;
constexpr double hair_min = 1e-6;

std::chrono::year_month_day date_of(double minute) {
    const auto day = static_cast<int>(std::floor(minute / minutes_a_day));
    return std::chrono::year_month_day{std::chrono::sys_days{std::chrono::days{day}}};
}

int year_of(double minute) { return static_cast<int>(date_of(minute).year()); }

std::size_t half_month_of(double minute) {
    const auto date = date_of(minute);
    const unsigned month = static_cast<unsigned>(date.month()) - 1U;
    return 2U * month + (static_cast<unsigned>(date.day()) > 15U ? 1U : 0U);
}

double start_of_year(int year) {
    const std::chrono::sys_days day =
        std::chrono::year_month_day{std::chrono::year{year}, std::chrono::January, std::chrono::day{1}};
    return static_cast<double>(day.time_since_epoch().count()) * minutes_a_day;
}

double overlap_min(const Period& one, double start, double end) {
    return std::max(0.0, std::min(one.end_min, end) - std::max(one.start_min, start));
}

void need(bool right, const char* what, std::size_t i) {
    if (!right) throw std::invalid_argument(fmt::format("reading {}: {}", i + 1, what));
}

/// Rain between two missing periods is cut into storms by itself: no one knows what fell in between.
std::vector<Rain> pieces_between(const Rain& rain, const std::vector<Period>& missing) {
    std::vector<Rain> pieces(1);
    auto gap = missing.begin();
    for (const RainInterval& one : rain) {
        bool passed = false;
        for (; gap != missing.end() && gap->end_min <= one.start_min + hair_min; ++gap) passed = true;
        if (passed && !pieces.back().empty()) pieces.emplace_back();
        pieces.back().push_back(one);
    }
    return pieces;
}

bool near_missing(const Storm& storm, const std::vector<Period>& missing, double hours) {
    const double reach = 60.0 * hours;
    // In order and apart, so that the first one not yet over before the storm decides.
    const auto gap = std::partition_point(missing.begin(), missing.end(),
                                          [&](const Period& one) { return one.end_min <= storm.start_min - reach; });
    return gap != missing.end() && gap->start_min < storm.end_min + reach;
}

std::vector<YearOfRain> years_of(const GaugeRecord& record) {
    std::vector<YearOfRain> years;
    if (!(record.whole.end_min > record.whole.start_min)) return years;
    for (int year = year_of(record.whole.start_min); year <= year_of(record.whole.end_min - hair_min); ++year) {
        YearOfRain one;
        one.year = year;
        const double start = start_of_year(year), end = start_of_year(year + 1);
        double recorded = overlap_min(record.whole, start, end);
        for (const Period& gap : record.missing) recorded -= overlap_min(gap, start, end);
        one.recorded_share = recorded / (end - start);
        years.push_back(one);
    }
    return years;
}

bool full(const YearOfRain& year) { return year.recorded_share >= least_recorded_share; }

source::Remarks remarks_on(const RecordErosivity& result, const GaugeRecord& record) {
    source::Remarks remarks;
    if (!record.missing.empty())
        remarks.push_back({source::Weight::caution, "record-missing",
                           fmt::format("{} periods, {:.1f} days together, were not recorded. They are not read as dry: "
                                       "storms beside them may have been larger.",
                                       record.missing.size(), result.missing_days)});
    const auto full_years = std::count_if(result.years.begin(), result.years.end(), full);
    if (full_years == 0)
        remarks.push_back({source::Weight::caution, "record-no-full-year",
                           "No calendar year is recorded nearly whole, so there is no mean of the year."});
    else if (full_years < 20)
        remarks.push_back({source::Weight::caution, "record-short",
                           fmt::format("{} {} recorded. A few large storms decide; means of 20 years and more are "
                                       "steadier.",
                                       full_years, full_years == 1 ? "full year is" : "full years are")});
    if (result.interval_factor > 1.0)
        remarks.push_back({source::Weight::note, "record-interval",
                           fmt::format("Depths every {:.0f} minutes blunt the peaks; EI30 is raised by {:.3f}.",
                                       *record.fixed_interval_min, result.interval_factor)});
    return remarks;
}

}  // namespace

GaugeRecord record_of_tips(const std::vector<Tip>& tips, std::vector<Period> missing) {
    GaugeRecord record;
    record.missing = std::move(missing);
    for (std::size_t i = 0; i < record.missing.size(); ++i)
        if (!(record.missing[i].end_min > record.missing[i].start_min) ||
            (i > 0 && record.missing[i].start_min < record.missing[i - 1].end_min))
            throw std::invalid_argument(fmt::format("missing period {} runs backwards or into another", i + 1));
    if (tips.empty()) return record;
    double last_minute = -1e300;
    for (std::size_t i = 0; i < tips.size(); ++i) {
        need(tips[i].depth_mm >= 0.0, "holds less than nothing", i);
        need(i == 0 || tips[i].minute >= tips[i - 1].minute, "is earlier than the one before it", i);
        if (tips[i].depth_mm <= 0.0) continue;
        if (tips[i].minute == last_minute) {
            record.rain.back().depth_mm += tips[i].depth_mm;
            continue;
        }
        // After a pause no one knows when the bucket began to fill; a minute is what the clock can say.
        double fill = tips[i].minute - last_minute;
        const auto later = std::partition_point(record.missing.begin(), record.missing.end(),
                                                [&](const Period& gap) { return gap.start_min < tips[i].minute; });
        if (later != record.missing.begin() && std::prev(later)->end_min > last_minute)
            fill = tips[i].minute - std::prev(later)->end_min;
        if (!(fill > 0.0) || fill > longest_fill_min) fill = 1.0;
        record.rain.push_back({tips[i].minute - fill, tips[i].minute, tips[i].depth_mm});
        last_minute = tips[i].minute;
    }
    record.whole = {tips.front().minute, tips.back().minute};
    return record;
}

GaugeRecord record_of_breakpoints(const std::vector<Breakpoint>& points) {
    GaugeRecord record;
    for (std::size_t i = 1; i < points.size(); ++i) {
        need(points[i].minute > points[i - 1].minute, "is not later than the one before it", i);
        need(points[i].total_mm >= points[i - 1].total_mm, "the total falls", i);
        if (points[i].total_mm > points[i - 1].total_mm)
            record.rain.push_back(
                {points[i - 1].minute, points[i].minute, points[i].total_mm - points[i - 1].total_mm});
    }
    if (!points.empty()) record.whole = {points.front().minute, points.back().minute};
    return record;
}

GaugeRecord record_of_readings(const std::vector<Reading>& readings, double interval_min, Unlisted unlisted) {
    if (!(interval_min > 0.0)) throw std::invalid_argument("the interval of a logger is above 0 minutes");
    GaugeRecord record;
    record.fixed_interval_min = interval_min;
    const auto add_missing = [&](double start, double end) {
        if (!record.missing.empty() && record.missing.back().end_min >= start - hair_min)
            record.missing.back().end_min = end;
        else
            record.missing.push_back({start, end});
    };
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double end = readings[i].end_min, start = end - interval_min;
        if (i > 0) {
            const double last = readings[i - 1].end_min;
            need(end > last, "is not later than the one before it", i);
            need(start >= last - hair_min, "is closer to the one before it than the logger's interval", i);
            if (start > last + hair_min && unlisted == Unlisted::missing) add_missing(last, start);
        }
        if (!readings[i].depth_mm) {
            add_missing(start, end);
            continue;
        }
        need(*readings[i].depth_mm >= 0.0, "holds less than nothing", i);
        if (*readings[i].depth_mm > 0.0) record.rain.push_back({start, end, *readings[i].depth_mm});
    }
    if (!readings.empty()) record.whole = {readings.front().end_min - interval_min, readings.back().end_min};
    return record;
}

double interval_factor(double interval_min) {
    if (!(interval_min > 0.0) || interval_min > 60.0)
        throw std::invalid_argument("depths of intervals above 60 minutes say too little of the peaks of rain");
    if (interval_min <= 1.0) return 1.0;
    const double at_5 = std::log(1.014), at_60 = std::log(1.730);
    return std::exp(at_5 * std::pow(interval_min / 5.0, std::log(at_60 / at_5) / std::log(60.0 / 5.0)));
}

RecordErosivity erosivity_of_record(const GaugeRecord& record, const StormRule& rule) {
    RecordErosivity result;
    if (record.fixed_interval_min) result.interval_factor = interval_factor(*record.fixed_interval_min);
    for (const Period& gap : record.missing) result.missing_days += (gap.end_min - gap.start_min) / minutes_a_day;
    result.years = years_of(record);
    for (const Rain& piece : pieces_between(record.rain, record.missing))
        for (const Rain& rain : cut_into_storms(piece, rule)) {
            JudgedStorm judged;
            judged.storm = storm_of(rain, rule);
            judged.counted = counts(judged.storm, rule);
            judged.cut_short = near_missing(judged.storm, record.missing, rule.break_hours);
            result.storms.push_back(judged);
        }

    const bool any_full = std::any_of(result.years.begin(), result.years.end(), full);
    double shared = 0.0;
    for (const JudgedStorm& judged : result.storms) {
        // A storm over New Year belongs to the year when it began.
        const auto year = std::find_if(result.years.begin(), result.years.end(), [&](const YearOfRain& one) {
            return one.year == year_of(std::max(judged.storm.start_min, record.whole.start_min));
        });
        if (year == result.years.end()) continue;
        year->rain_mm += judged.storm.depth_mm;
        if (!judged.counted) continue;
        ++year->storms;
        year->EI30_537 += result.interval_factor * judged.storm.EI30_537();
        year->EI30_brown_foster += result.interval_factor * judged.storm.EI30_brown_foster();
        if (any_full && !full(*year)) continue;
        result.half_month_share[half_month_of(judged.storm.start_min)] += judged.storm.EI30_brown_foster();
        shared += judged.storm.EI30_brown_foster();
    }
    if (shared > 0.0)
        for (double& share : result.half_month_share) share /= shared;
    if (any_full) {
        double sum_537 = 0.0, sum_brown_foster = 0.0, years = 0.0;
        for (const YearOfRain& year : result.years) {
            if (!full(year)) continue;
            sum_537 += year.EI30_537;
            sum_brown_foster += year.EI30_brown_foster;
            years += 1.0;
        }
        result.R_537 = sum_537 / years;
        result.R_brown_foster = sum_brown_foster / years;
    }
    result.remarks = remarks_on(result, record);
    return result;
}

}  // namespace soilhold::factors
