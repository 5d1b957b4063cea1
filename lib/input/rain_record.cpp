#include "input/rain_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "input/local_zone.h"
#include "input/rain_rows.h"
#include "input/rain_table.h"
#include "input/time_stamp.h"

namespace soilhold::input {

namespace {

using factors::Period;
using source::Weight;

constexpr double hair_min = 1e-6;
constexpr double most_interval_min = 60.0;  // beyond, no factor makes good for blunted peaks
constexpr double most_depth_mm = 400.0;     // more than has fallen anywhere in an hour
constexpr double silent_days = 60.0;        // a dry spell longer than that is asked about (ours)

std::string stamp_words(double minute) {
    char buffer[17];
    return std::string(plain_stamp(minute, buffer));
}

/// What the steps and values of the rows look like.
struct Shape {
    double usual_step_min = 0.0;  ///< the commonest whole number of minutes between rows
    double usual_share = 0.0;     ///< of all steps
    double zero_share = 0.0;
    std::size_t rises = 0, falls = 0, falls_to_little = 0;
    bool on_the_five = true;  ///< all rows at minutes divisible by five
};

Shape shape_of(const std::vector<RainRow>& rows) {
    Shape shape;
    std::vector<std::size_t> steps(1441, 0);
    std::size_t zeros = 0, present = 0;
    const RainRow* last = nullptr;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i > 0) {
            const double step = rows[i].minute - rows[i - 1].minute;
            const double whole = std::round(step);
            if (std::abs(step - whole) < 0.02 && whole >= 1.0 && whole <= 1440.0)
                ++steps[static_cast<std::size_t>(whole)];
        }
        if (std::fmod(rows[i].minute, 5.0) != 0.0) shape.on_the_five = false;
        if (rows[i].missing) continue;
        ++present;
        if (rows[i].depth_mm <= 0.0) ++zeros;
        if (last) {
            if (rows[i].depth_mm > last->depth_mm) ++shape.rises;
            if (rows[i].depth_mm < last->depth_mm) {
                ++shape.falls;
                if (rows[i].depth_mm <= 0.1 * last->depth_mm) ++shape.falls_to_little;
            }
        }
        last = &rows[i];
    }
    const auto most = std::max_element(steps.begin(), steps.end());
    if (*most > 0) shape.usual_step_min = static_cast<double>(most - steps.begin());
    if (rows.size() > 1) shape.usual_share = static_cast<double>(*most) / static_cast<double>(rows.size() - 1);
    if (present > 0) shape.zero_share = static_cast<double>(zeros) / static_cast<double>(present);
    return shape;
}

/// "tips", "interval", "cumulative", or nothing where the rows leave it in doubt.
std::string kind_by(const Shape& shape) {
    if (shape.rises >= 3 && shape.falls == 0) return "cumulative";
    if (shape.rises >= 100 && shape.falls == shape.falls_to_little && shape.falls * 50 < shape.rises)
        return "cumulative";
    if (shape.zero_share > 0.2 && shape.usual_share >= 0.5) return "interval";
    if (shape.zero_share < 0.05 && !shape.on_the_five) return "tips";
    return "";
}

void add_missing(factors::GaugeRecord& record, double start, double end) {
    if (!(end > start + hair_min)) return;
    if (!record.missing.empty() && record.missing.back().end_min >= start - hair_min)
        record.missing.back().end_min = std::max(record.missing.back().end_min, end);
    else
        record.missing.push_back({start, end});
}

struct Maker {
    const RainTable& table;
    const RainOptions& options;
    const std::vector<RainRow>& rows;
    const Shape& shape;
    RainMistakes& mistakes;
    RainRecord& result;

    void mistake(const RainRow& row, const char* code, std::string text) const {
        mistakes.add(row.line, 0, line_numbered(table, row.line), code, std::move(text));
    }
    void remark(Weight weight, const char* code, std::string text) const {
        result.remarks.push_back({weight, code, std::move(text)});
    }
    void check_depth(const RainRow& row, double depth_mm) const {
        if (depth_mm > most_depth_mm)
            mistake(row, "too-much",
                    fmt::format("{:.0f} mm ({:.1f} in) at once is more than has ever fallen in an hour. Is the unit "
                                "right, or does it mark a missing value?",
                                depth_mm, depth_mm / 25.4));
    }

    void tips() const {
        std::vector<factors::Tip> tips;
        factors::GaugeRecord gaps;
        double longest = 0.0, silent_from = 0.0;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const double pause = i > 0 ? rows[i].minute - rows[i - 1].minute : 0.0;
            if (rows[i].missing) {
                // What the bucket did since the row before is not known.
                if (i > 0) add_missing(gaps, rows[i - 1].minute, rows[i].minute);
                continue;
            }
            check_depth(rows[i], rows[i].depth_mm);
            if (pause > longest) longest = pause, silent_from = rows[i - 1].minute;
            tips.push_back({rows[i].minute, rows[i].depth_mm});
        }
        if (mistakes.count() > 0) return;
        result.record = factors::record_of_tips(tips, gaps.missing);
        if (longest > silent_days * 1440.0)
            remark(Weight::caution, "tips-silent",
                   fmt::format("No tip in the {:.0f} days from {}. Tips can't show whether it was dry or the gauge was "
                               "dead; it is taken as dry.",
                               longest / 1440.0, stamp_words(silent_from).substr(0, 10)));
    }

    double interval() const {
        if (!options.interval.empty()) return interval_minutes(options.interval);
        if (shape.usual_step_min <= 0.0 || shape.usual_share < 0.2) {
            mistakes.add(0, 0, "", "interval",
                         "The rows don't follow each other at one interval. Say how long one is with --interval \"15 "
                         "min\"");
            mistakes.throw_if_any();
        }
        return shape.usual_step_min;
    }

    void need_fine(double interval_min) const {
        if (interval_min <= most_interval_min) return;
        mistakes.add(
            0, 0, "", "interval-coarse",
            fmt::format("Depths every {:.0f} minutes say too little of how hard it rained. R from a gauge needs "
                        "intervals of an hour or less",
                        interval_min));
        mistakes.throw_if_any();
    }

    /// The interval in which half of the rain came or finer: what blunts the peaks of a logger with two rhythms.
    std::optional<double> usual_interval_of_rain(double longest_min) const {
        std::vector<std::pair<double, double>> by_length;
        double total = 0.0;
        for (const auto& one : result.record.rain) {
            by_length.emplace_back(one.end_min - one.start_min, one.depth_mm);
            total += one.depth_mm;
        }
        if (by_length.empty()) return std::nullopt;
        std::sort(by_length.begin(), by_length.end());
        double sum = 0.0;
        for (const auto& [length, depth] : by_length)
            if ((sum += depth) >= 0.5 * total) return std::clamp(length, 0.01, longest_min);
        return longest_min;
    }

    void intervals() const {
        const double length = interval();
        need_fine(length);
        const double shift = options.stamp == "start" ? length : 0.0;
        auto& record = result.record;
        std::size_t twice = 0, short_steps = 0, spring = 0;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const RainRow& row = rows[i];
            const double end = row.minute + shift;
            double start = end - length;
            if (i > 0) {
                const double last = rows[i - 1].minute + shift;
                if (row.minute == rows[i - 1].minute) {
                    if (row.depth_mm == rows[i - 1].depth_mm && row.missing == rows[i - 1].missing)
                        ++twice;
                    else
                        mistake(
                            row, "time-twice",
                            fmt::format("{} stands twice with different depths. If the gauge's clock follows summer "
                                        "time, give --zone",
                                        stamp_words(row.minute)));
                    continue;
                }
                if (start < last - 0.1 * length) ++short_steps;
                // A clock that wanders a little leaves no gap.
                if (start < last + 0.1 * length) start = last;
                if (start > last && !options.dry_left_out) {
                    add_missing(record, last, start);
                    if (std::abs(start - last - 60.0) < 0.5 &&
                        read_summer_clock(rows[i - 1].minute + length).hour == WallHour::skipped)
                        ++spring;
                }
            }
            if (row.missing) {
                add_missing(record, start, end);
                continue;
            }
            check_depth(row, row.depth_mm);
            if (row.depth_mm > 0.0) record.rain.push_back({start, end, row.depth_mm});
        }
        if (rows.empty()) return;
        record.whole = {rows.front().minute + shift - length, rows.back().minute + shift};
        record.fixed_interval_min = short_steps > 0 ? usual_interval_of_rain(length) : std::optional<double>(length);
        result.read_as.emplace_back(
            "interval", fmt::format("{:g} min, stamped at its {}{}", length, options.stamp == "start" ? "start" : "end",
                                    options.stamp.empty() ? " (our assumption; --stamp start)" : ""));
        if (twice > 0)
            remark(Weight::caution, "row-twice", fmt::format("{} rows stand twice; each counts once.", twice));
        if (short_steps > 0)
            remark(
                Weight::note, "interval-shorter",
                fmt::format("{} rows follow the one before sooner than {:g} minutes. Each is taken as the rain since "
                            "the row before it.",
                            short_steps, length));
        if (spring > 0)
            remark(Weight::caution, "summer-time",
                   "An hour is missing where summer time begins: the clock seems to follow it. Give --zone, for "
                   "instance --zone America/Chicago.");
    }

    void cumulative() const {
        auto& record = result.record;
        const bool logger = shape.usual_share >= 0.8 && shape.usual_step_min > 0.0;
        if (logger) {
            need_fine(shape.usual_step_min);
            record.fixed_interval_min = shape.usual_step_min;
        }
        const RainRow* last = nullptr;
        bool unknown = false;
        std::size_t emptied = 0;
        for (const RainRow& row : rows) {
            if (row.missing) {
                unknown = true;
                continue;
            }
            if (last && row.minute > last->minute) {
                double depth = row.depth_mm - last->depth_mm;
                if (depth < -hair_min) {
                    if (row.depth_mm > 0.1 * last->depth_mm)
                        mistake(row, "total-falls",
                                fmt::format("The total falls from {:.2f} to {:.2f} mm. A total only rises, or begins "
                                            "again near 0 when the gauge is emptied. Are these depths of intervals "
                                            "(--kind interval)?",
                                            last->depth_mm, row.depth_mm));
                    ++emptied;
                    depth = row.depth_mm;
                }
                const bool late = logger && row.minute - last->minute > 1.5 * shape.usual_step_min;
                check_depth(row, depth > 0.0 && row.minute - last->minute <= 60.0 ? depth : 0.0);
                if (depth > 0.0 && (unknown || late))
                    add_missing(record, last->minute, row.minute);  // it rained, but no one knows when
                else if (depth > 0.0)
                    record.rain.push_back({last->minute, row.minute, depth});
            } else if (last && row.depth_mm != last->depth_mm) {
                mistake(row, "time-twice",
                        fmt::format("{} stands twice with different totals", stamp_words(row.minute)));
            }
            unknown = false;
            last = &row;
        }
        if (!rows.empty()) record.whole = {rows.front().minute, rows.back().minute};
        if (emptied > 0)
            remark(Weight::note, "gauge-emptied",
                   fmt::format("The total begins again near 0 {} {}: the gauge was emptied.", emptied,
                               emptied == 1 ? "time" : "times"));
    }
};

void check_words(const RainOptions& options) {
    const auto need = [](const char* option, const std::string& word, std::initializer_list<const char*> known,
                         const char* list) {
        if (word.empty() || std::find(known.begin(), known.end(), word) != known.end()) return;
        throw InputError({{{option, 0, 0}, "unknown-word", fmt::format("'{}' is not one of {}", word, list), ""}});
    };
    need("--kind", options.kind, {"tips", "interval", "cumulative"}, "tips, interval, cumulative");
    need("--stamp", options.stamp, {"end", "start"}, "end, start");
    if (!options.interval.empty()) interval_minutes(options.interval);
}

}  // namespace

RainRecord read_rain_record(const std::string& path, const RainOptions& options) {
    check_words(options);
    const RainTable table = read_rain_table(path);
    RainMistakes mistakes(table.name);
    const RainColumns columns = find_rain_columns(table, options, mistakes);
    RainRows read = read_rain_rows(table, columns, options, mistakes);
    const Shape shape = shape_of(read.rows);

    RainRecord result;
    result.name = table.name;
    result.rows = read.rows.size();
    result.missing_values = read.missing_values;
    result.remarks = std::move(read.remarks);
    if (std::all_of(read.rows.begin(), read.rows.end(), [](const RainRow& row) { return row.missing; })) {
        mistakes.add(0, 0, "", "all-missing", "Every depth of this file is missing. Is --depth the right column?");
        mistakes.throw_if_any();
    }
    result.kind = options.kind;
    const char* how = "as --kind says";
    if (result.kind.empty()) {
        how = "by its rows";
        if (!options.tip.empty())
            result.kind = "tips";
        else if (!options.interval.empty())
            result.kind = "interval";
        else
            result.kind = kind_by(shape);
    }
    if (result.kind.empty()) {
        mistakes.add(0, 0, "", "which-kind",
                     "The rows may be tips or a logger's intervals without the dry ones. Say --kind tips, or --kind "
                     "interval (with --dry-left-out when it writes nothing while it is dry)");
        mistakes.throw_if_any();
    }
    result.read_as.emplace_back("time", fmt::format("column '{}'", table.headings[columns.time]));
    if (columns.depth) result.read_as.emplace_back("depth", fmt::format("column '{}'", table.headings[*columns.depth]));
    result.read_as.emplace_back("unit", columns.unit_words);
    result.read_as.emplace_back("clock", read.clock_words);
    const Maker maker{table, options, read.rows, shape, mistakes, result};
    if (result.kind == "tips") {
        result.read_as.emplace_back("kind", fmt::format("tips, {}", how));
        maker.tips();
    } else if (result.kind == "interval") {
        result.read_as.emplace_back("kind", fmt::format("depths of intervals, {}", how));
        maker.intervals();
    } else {
        result.read_as.emplace_back("kind", fmt::format("a total that rises, {}", how));
        maker.cumulative();
    }
    mistakes.throw_if_any();
    return result;
}

}  // namespace soilhold::input
