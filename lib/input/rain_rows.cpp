#include "input/rain_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "input/gauge_value.h"
#include "input/local_zone.h"
#include "input/time_stamp.h"

namespace soilhold::input {

namespace {

constexpr std::size_t enough_mistakes = 1000;  // a file of another kind needs no more

std::string offset_words(int minutes) {
    return fmt::format("UTC{}{:02d}:{:02d}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60, std::abs(minutes) % 60);
}

std::string stamp_words(double minute) {
    char buffer[17];
    return std::string(plain_stamp(minute, buffer));
}

/// Brings stamps to one clock, row by row.
class Clock {
  public:
    explicit Clock(const RainOptions& options) : name_(options.zone) {
        if (options.zone.empty()) return;
        zone_ = zone_named(options.zone);
        if (!zone_)
            throw InputError(
                {{{"--zone", 0, 0},
                  "unknown-zone",
                  fmt::format("'{}' is not known here. Give the offset from universal time like -06:00, or "
                              "one of {}",
                              options.zone, known_zones()),
                  ""}});
    }

    /// Universal minutes of the stamp where the zone is known, else the stamp's own.
    /// @return  why it can't be, or nothing
    const char* read(const TimeStamp& stamp, std::string_view row_zone, double& minute) {
        if (stamp.offset_min) {
            ++with_offset_;
            minute = stamp.minute - *stamp.offset_min;
            lowest_standard_ = std::min(lowest_standard_, zone_ ? zone_->standard_min : *stamp.offset_min);
            last_ = minute;
            return nullptr;
        }
        ++without_offset_;
        if (!row_zone.empty() && row_zone != row_zone_) {
            const auto zone = zone_named(row_zone);
            if (!zone) return "the zone of this row is not known here; give --zone";
            row_zone_ = row_zone;
            name_ = row_zone_;
            zone_ = zone;
        }
        minute = stamp.minute;
        if (!zone_) return nullptr;
        lowest_standard_ = std::min(lowest_standard_, zone_->standard_min);
        if (zone_->follows_summer_time) {
            const WallReading reading = read_summer_clock(stamp.minute);
            if (reading.hour == WallHour::skipped)
                return "this hour does not exist: the clocks of this zone skip it when summer time begins. If the "
                       "gauge "
                       "kept standard time all year, give its offset, like --zone -06:00";
            minute = reading.standard - zone_->standard_min;
            if (reading.hour == WallHour::twice) {
                ++twice_;
                if (minute < last_) minute += 60.0;
            }
        } else {
            minute -= zone_->offset_min;
        }
        last_ = minute;
        return nullptr;
    }

    bool mixed() const { return with_offset_ > 0 && without_offset_ > 0 && !zone_; }
    bool known() const { return with_offset_ > 0 || zone_.has_value(); }
    /// Of standard time, to be added to universal minutes.
    int standard() const { return known() && lowest_standard_ < 10000 ? lowest_standard_ : 0; }
    std::size_t twice() const { return twice_; }
    std::string words() const {
        if (!known()) return "standard time the whole year, as the file names no zone (our assumption)";
        if (with_offset_ > 0) return fmt::format("offsets of the stamps, brought to {}", offset_words(standard()));
        if (zone_->follows_summer_time)
            return fmt::format("{}, summer time taken out ({})", name_, offset_words(standard()));
        return fmt::format("{}, brought to {}", name_, offset_words(standard()));
    }

  private:
    std::string name_, row_zone_;
    std::optional<LocalZone> zone_;
    int lowest_standard_ = 10000;
    std::size_t with_offset_ = 0, without_offset_ = 0, twice_ = 0;
    double last_ = -1e300;
};

std::string shortened(std::string_view cell) {
    return std::string(cell.substr(0, 40)) + (cell.size() > 40 ? "..." : "");
}

/// Rows that go back in time, or the whole record newest first.
void check_order(RainRows& result, const RainTable& table, RainMistakes& mistakes) {
    auto& rows = result.rows;
    const auto earlier = [](const RainRow& a, const RainRow& b) { return a.minute < b.minute; };
    std::size_t back = 0, forth = 0;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        if (rows[i].minute < rows[i - 1].minute) ++back;
        if (rows[i].minute > rows[i - 1].minute) ++forth;
    }
    if (back == 0) return;
    if (forth == 0) {
        std::reverse(rows.begin(), rows.end());
        result.remarks.push_back(
            {source::Weight::note, "newest-first", "The file runs from the newest row to the oldest."});
        return;
    }
    for (std::size_t i = 1; i < rows.size() && mistakes.count() < enough_mistakes; ++i) {
        if (!earlier(rows[i], rows[i - 1])) continue;
        const bool autumn = !result.zone_known && read_summer_clock(rows[i].minute).hour == WallHour::twice;
        mistakes.add(rows[i].line, 0, line_numbered(table, rows[i].line), "time-order",
                     fmt::format("{} is earlier than the row before it, {}. {}", stamp_words(rows[i].minute),
                                 stamp_words(rows[i - 1].minute),
                                 autumn ? "Summer time ends in this hour: if the gauge's clock follows it, say so with "
                                          "--zone, for instance --zone America/Chicago"
                                        : "Rows must follow each other in time"));
    }
}

}  // namespace

std::string_view line_numbered(const RainTable& table, int number) {
    std::size_t at = 0;
    std::string_view line;
    for (int i = 0; i < number; ++i)
        if (!next_line(table.text, at, line)) return {};
    return line;
}

RainRows read_rain_rows(const RainTable& table, const RainColumns& columns, const RainOptions& options,
                        RainMistakes& mistakes) {
    RainRows result;
    result.rows.reserve(table.text.size() / 32);
    Clock clock(options);
    std::size_t last_column = columns.time;
    for (const auto& column : {columns.clock, columns.depth, columns.zone})
        if (column) last_column = std::max(last_column, *column);

    std::vector<std::string_view> cells;
    std::string_view line;
    std::size_t at = table.first_row, traces = 0;
    int first_without_time = 0;
    bool any_time = false;
    for (int number = table.first_row_number; mistakes.count() < enough_mistakes && next_line(table.text, at, line);
         ++number) {
        if (line.empty() || line.front() == '#' || bare_cell(line).empty()) continue;
        split_cells(line, table.separator, cells, table.headings.size() + 1);
        const auto place = [&](std::size_t column) {
            return static_cast<std::size_t>(cells[column].data() - line.data());
        };
        if (cells.size() <= last_column) {
            mistakes.add(number, line.size(), line, "short-row",
                         fmt::format("The row ends before the column '{}'. Was the file cut off?",
                                     table.headings[std::min(last_column, table.headings.size() - 1)]));
            continue;
        }
        if (cells.size() > table.headings.size() && !bare_cell(cells.back()).empty()) {
            mistakes.add(number, place(table.headings.size()), line, "long-row",
                         "The row has more cells than there are headings. Is a decimal written with a comma?");
            continue;
        }
        RainRow row;
        row.line = number;
        const std::string_view time_cell = bare_cell(cells[columns.time]);
        TimeStamp stamp = read_time_stamp(time_cell);
        if (stamp.wrong) {
            mistakes.add(number, place(columns.time), line, "time",
                         fmt::format("'{}' is no time: {}", shortened(time_cell), stamp.wrong));
            continue;
        }
        if (columns.clock) {
            const auto of_day = read_time_of_day(bare_cell(cells[*columns.clock]));
            if (!of_day) {
                mistakes.add(number, place(*columns.clock), line, "time",
                             fmt::format("'{}' is no time of day: it is written hour:minute",
                                         shortened(bare_cell(cells[*columns.clock]))));
                continue;
            }
            stamp.minute += *of_day;
            stamp.has_time = true;
        }
        any_time = any_time || stamp.has_time;
        if (!stamp.has_time && first_without_time == 0) first_without_time = number;
        if (const char* wrong =
                clock.read(stamp, columns.zone ? bare_cell(cells[*columns.zone]) : std::string_view{}, row.minute)) {
            mistakes.add(number, place(columns.time), line, "hour-skipped",
                         fmt::format("'{}': {}", shortened(time_cell), wrong));
            continue;
        }
        if (columns.depth) {
            const std::string_view cell = bare_cell(cells[*columns.depth]);
            const GaugeValue value = read_gauge_value(cell);
            switch (value.is) {
                case ValueIs::no_number:
                    mistakes.add(
                        number, place(*columns.depth), line, "not-a-number",
                        fmt::format("'{}' is neither a depth nor a mark for a missing one. {}", shortened(cell),
                                    cell.find(',') != std::string_view::npos
                                        ? "Write decimals with a point"
                                        : "A depth is written 0.25; blank, NA, M or -9999 mean missing"));
                    continue;
                case ValueIs::missing:
                    row.missing = true;
                    ++result.missing_values;
                    break;
                case ValueIs::trace:
                    ++traces;
                    break;
                case ValueIs::depth:
                    if (value.value < 0.0) {
                        mistakes.add(number, place(*columns.depth), line, "below-zero",
                                     fmt::format("{} is less than nothing. If it marks a missing value, write -9999 or "
                                                 "leave the cell blank",
                                                 shortened(cell)));
                        continue;
                    }
                    row.depth_mm = value.value * columns.mm_per_unit;
                    break;
            }
        } else {
            row.depth_mm = columns.mm_per_unit;
        }
        result.rows.push_back(row);
    }
    if (!result.rows.empty() && !any_time)
        mistakes.add(
            first_without_time, 0, line_numbered(table, first_without_time), "daily",
            "The stamps are dates without a time of day. R from a gauge needs rain by the hour or finer; daily "
            "totals don't show how hard it rained");
    if (clock.mixed())
        mistakes.add(0, 0, "", "offset-mixed",
                     "Some stamps have an offset like -06:00 and some have none. Give --zone for those that have none");
    const double shift = clock.standard();
    for (RainRow& row : result.rows) row.minute += shift;
    result.zone_known = clock.known();
    result.clock_words = clock.words();
    if (clock.twice() > 0)
        result.remarks.push_back(
            {source::Weight::note, "hour-twice",
             fmt::format("{} rows stand in an hour that the clock shows twice when summer time ends. They are taken as "
                         "the first such hour until the clock goes back, then as the second.",
                         clock.twice())});
    if (traces > 0)
        result.remarks.push_back({source::Weight::note, "trace",
                                  fmt::format("{} traces (T) are taken as 0: too little to measure.", traces)});
    check_order(result, table, mistakes);
    mistakes.throw_if_any();
    return result;
}

}  // namespace soilhold::input
