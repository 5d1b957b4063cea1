#include "input/rain_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "input/gauge_value.h"
#include "input/local_zone.h"
#include "input/time_stamp.h"

namespace soilhold::input {

namespace {

constexpr double mm_per_inch = 25.4;

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

/// Pieces of a heading between signs: "Rain_depth (mm)" -> rain, depth, mm.
std::vector<std::string> pieces(std::string_view heading) {
    std::vector<std::string> result(1);
    for (const char c : lower(heading)) {
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            result.back() += c;
        else if (!result.back().empty())
            result.emplace_back();
    }
    return result;
}

bool has_piece(const std::vector<std::string>& all, std::string_view one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

/// Millimetres of one unit named in a heading; 0 when none is.
double unit_in(std::string_view heading) {
    const auto all = pieces(heading);
    for (const char* mm : {"mm", "millimeter", "millimeters", "millimetre", "millimetres"})
        if (has_piece(all, mm)) return 1.0;
    for (const char* inch : {"in", "inch", "inches"})
        if (has_piece(all, inch)) return mm_per_inch;
    for (std::size_t i = 0; i + 2 < all.size(); ++i)
        if (all[i] == "kg" && all[i + 1] == "m" && all[i + 2] == "2") return 1.0;  // kg/m2 of water is mm
    return 0.0;
}

/// How surely a heading names a depth of rain: 0 not at all.
int depth_rank(std::string_view heading) {
    const auto all = pieces(heading);
    const std::string whole = lower(heading);
    for (const char* other : {"cd", "flag", "flags", "code", "qc", "quality", "id", "no", "remark"})
        if (has_piece(all, other)) return 0;
    if (has_piece(all, "00045")) return 3;  // the parameter code of rain in public gauge records
    for (const char* word : {"rain", "precip", "prcp", "rainfall", "ppt"})
        if (whole.find(word) != std::string::npos) return 3;
    if (has_piece(all, "depth") || has_piece(all, "tip") || has_piece(all, "tips")) return 2;
    for (const char* word : {"value", "amount", "gauge", "gage"})
        if (whole.find(word) != std::string::npos) return 1;
    return 0;
}

struct Seen {
    const RainTable& table;
    std::vector<std::vector<std::string>> rows;  ///< the first few

    /// Whether the column can be read so in every row seen.
    template <class F>
    bool every(std::size_t column, F&& reads) const {
        return std::all_of(rows.begin(), rows.end(),
                           [&](const auto& row) { return column < row.size() && reads(row[column]); });
    }
    bool stamps(std::size_t column) const {
        return every(column, [](const std::string& cell) { return !read_time_stamp(cell).wrong; });
    }
    bool stamps_with_time(std::size_t column) const {
        return stamps(column) && std::any_of(rows.begin(), rows.end(),
                                             [&](const auto& row) { return read_time_stamp(row[column]).has_time; });
    }
    bool a_row_a_day(std::size_t column) const {
        for (std::size_t i = 1; i < rows.size(); ++i)
            if (rows[i][column] == rows[i - 1][column]) return false;
        return rows.size() > 2;
    }
    bool clocks(std::size_t column) const {
        return every(column, [](const std::string& cell) {
            return cell.find(':') != std::string::npos && read_time_of_day(cell).has_value();
        });
    }
    bool numbers(std::size_t column) const {
        return every(column, [](const std::string& cell) { return read_gauge_value(cell).is != ValueIs::no_number; });
    }
};

Seen first_rows(const RainTable& table) {
    Seen seen{table, {}};
    std::size_t at = table.first_row;
    std::string_view line;
    std::vector<std::string_view> cells;
    while (seen.rows.size() < 50 && next_line(table.text, at, line)) {
        if (line.empty() || line.front() == '#') continue;
        split_cells(line, table.separator, cells);
        seen.rows.emplace_back();
        for (const auto cell : cells) seen.rows.back().emplace_back(bare_cell(cell));
    }
    return seen;
}

std::string listed(const std::vector<std::string>& headings) {
    std::string text;
    for (std::size_t i = 0; i < headings.size() && i < 12; ++i)
        text += (text.empty() ? "'" : ", '") + headings[i].substr(0, 60) + "'";
    return headings.size() > 12 ? text + ", ..." : text;
}

/// The column that the user named, by heading or number.
std::optional<std::size_t> named(const RainTable& table, const std::string& name) {
    const auto& headings = table.headings;
    if (const auto found = std::find(headings.begin(), headings.end(), name); found != headings.end())
        return static_cast<std::size_t>(found - headings.begin());
    for (std::size_t i = 0; i < headings.size(); ++i)
        if (lower(headings[i]) == lower(name)) return i;
    if (!name.empty() && name.size() < 4 && name.find_first_not_of("0123456789") == std::string::npos) {
        const auto number = static_cast<std::size_t>(std::stoi(name));
        if (number >= 1 && number <= headings.size()) return number - 1;
    }
    return std::nullopt;
}

struct Finder {
    const RainTable& table;
    const RainOptions& options;
    RainMistakes& mistakes;
    Seen seen;

    void say(const char* code, std::string text) const {
        mistakes.add(table.heading_line_number, 0, table.heading_line, code, std::move(text));
    }
    std::optional<std::size_t> asked(const char* option, const std::string& name) const {
        const auto column = named(table, name);
        if (!column)
            say("no-column",
                fmt::format("{} names '{}', but the columns are {}", option, name, listed(table.headings)));
        return column;
    }

    bool find_time(RainColumns& columns) const {
        if (!options.time.empty()) {
            const std::size_t plus = options.time.find('+');
            if (plus != std::string::npos && !named(table, options.time)) {
                const auto date = asked("--time", options.time.substr(0, plus));
                const auto clock = asked("--time", options.time.substr(plus + 1));
                if (!date || !clock) return false;
                columns.time = *date;
                columns.clock = *clock;
                return true;
            }
            const auto column = asked("--time", options.time);
            if (column) columns.time = *column;
            return column.has_value();
        }
        for (const bool with_time : {true, false})
            for (std::size_t i = 0; i < table.headings.size(); ++i) {
                if (with_time ? !seen.stamps_with_time(i) : !seen.stamps(i)) continue;
                columns.time = i;
                if (with_time) return true;
                for (std::size_t k = 0; k < table.headings.size(); ++k)
                    if (k != i && seen.clocks(k)) {
                        columns.clock = k;
                        return true;
                    }
                // Dates alone; or the dates of midnights, in files that leave 00:00 out.
                if (seen.a_row_a_day(i))
                    say("daily",
                        fmt::format(
                            "The column '{}' holds dates without a time of day. R from a gauge needs rain by the "
                            "hour or finer; daily totals don't show how hard it rained",
                            table.headings[i]));
                return !seen.a_row_a_day(i);
            }
        // A bad stamp among the first rows must not hide the column.
        for (std::size_t i = 0; i < table.headings.size(); ++i)
            for (const auto& row : seen.rows)
                if (i < row.size() && read_time_stamp(row[i]).has_time) {
                    columns.time = i;
                    return true;
                }
        say("no-column", fmt::format("No column holds times like 2016-05-31 14:05 or 5/31/2016 14:05. Name it with "
                                     "--time COLUMN; the columns are {}",
                                     listed(table.headings)));
        return false;
    }

    bool find_depth(RainColumns& columns) const {
        if (!options.depth.empty()) {
            columns.depth = asked("--depth", options.depth);
            return columns.depth.has_value();
        }
        if (!options.tip.empty()) return true;
        for (int rank = 3; rank >= 0; --rank) {
            std::vector<std::size_t> found;
            for (std::size_t i = 0; i < table.headings.size(); ++i) {
                if (i == columns.time || (columns.clock && i == *columns.clock)) continue;
                if (rank > 0 ? depth_rank(table.headings[i]) == rank
                             : seen.numbers(i) && table.headings.size() <= 2U + (columns.clock ? 1U : 0U))
                    found.push_back(i);
            }
            if (found.empty()) continue;
            if (found.size() == 1) {
                columns.depth = found.front();
                return true;
            }
            std::vector<std::string> names;
            for (const std::size_t i : found) names.push_back(table.headings[i]);
            say("which-column",
                fmt::format("Several columns may be the depth: {}. Say which with --depth COLUMN", listed(names)));
            return false;
        }
        say("no-column", fmt::format("No heading speaks of rain. Name the depth with --depth COLUMN, or give "
                                     "--tip \"0.01 in\" when every row is one tip; the columns are {}",
                                     listed(table.headings)));
        return false;
    }

    void find_unit(RainColumns& columns) const {
        if (!options.tip.empty()) {
            const std::size_t digits = options.tip.find_first_not_of("0123456789.");
            const GaugeValue size = read_gauge_value(options.tip.substr(0, digits));
            const double unit = digits == std::string::npos ? 0.0 : unit_in(options.tip.substr(digits));
            if (size.is != ValueIs::depth || !(size.value > 0.0) || unit <= 0.0) {
                mistakes.add(
                    0, 0, "", "no-unit",
                    fmt::format("--tip \"{}\" is no depth; write it as \"0.01 in\" or \"0.2 mm\"", options.tip));
                return;
            }
            columns.mm_per_unit = size.value * unit;
            columns.unit_words = fmt::format("tips of {}", options.tip);
            return;
        }
        const std::string& heading = table.headings[*columns.depth];
        const auto words = [](double unit) { return unit > 1.0 ? "inches" : "mm"; };
        double from_heading = unit_in(heading);
        std::string where = "by the heading '" + heading + "'";
        if (from_heading <= 0.0 && *columns.depth < table.widths.size()) {
            from_heading = unit_in(table.widths[*columns.depth]);
            where = "by the second heading line";
        }
        if (from_heading <= 0.0)
            for (const std::string& other : table.headings)
                if (has_piece(pieces(other), "00045")) {
                    from_heading = mm_per_inch;
                    where = fmt::format("by the code 00045 in the heading '{}'", other);
                }
        const double asked_unit = options.unit.empty() ? 0.0 : unit_in(options.unit);
        if (!options.unit.empty() && asked_unit <= 0.0) {
            mistakes.add(0, 0, "", "unknown-unit", fmt::format("--unit is 'in' or 'mm', not '{}'", options.unit));
            return;
        }
        if (asked_unit > 0.0 && from_heading > 0.0 && asked_unit != from_heading) {
            say("unit-differs", fmt::format("--unit says {}, but the file says {} ({}). Drop one", words(asked_unit),
                                            words(from_heading), where));
            return;
        }
        if (asked_unit <= 0.0 && from_heading <= 0.0) {
            say("no-unit", fmt::format("The heading '{}' has no unit. Are the depths inches or millimetres? Say --unit "
                                       "in or --unit mm",
                                       heading));
            return;
        }
        columns.mm_per_unit = asked_unit > 0.0 ? asked_unit : from_heading;
        columns.unit_words =
            fmt::format("{}, {}", words(columns.mm_per_unit), asked_unit > 0.0 ? "as --unit says" : where);
    }

    void find_zone(RainColumns& columns) const {
        if (!options.zone.empty()) return;
        for (std::size_t i = 0; i < table.headings.size(); ++i) {
            if (i == columns.time || i == columns.clock || i == columns.depth) continue;
            const std::string name = lower(table.headings[i]);
            if (name != "tz_cd" && name != "tz" && name != "timezone" && name != "time_zone" && name != "time zone")
                continue;
            if (seen.every(i, [](const std::string& cell) { return zone_named(cell).has_value(); })) columns.zone = i;
        }
    }
};

}  // namespace

RainColumns find_rain_columns(const RainTable& table, const RainOptions& options, RainMistakes& mistakes) {
    RainColumns columns;
    const Finder finder{table, options, mistakes, first_rows(table)};
    const bool time = finder.find_time(columns);
    const bool depth = time && finder.find_depth(columns);
    if (time && depth && columns.depth && *columns.depth == columns.time)
        finder.say("which-column", "--time and --depth name the same column");
    if (depth) finder.find_unit(columns);
    if (time && depth) finder.find_zone(columns);
    mistakes.throw_if_any();
    return columns;
}

double interval_minutes(const std::string& text) {
    const std::size_t digits = std::min(text.find_first_not_of("0123456789."), text.size());
    const GaugeValue number = read_gauge_value(text.substr(0, digits));
    std::string unit = lower(text.substr(digits));
    unit.erase(0, std::min(unit.find_first_not_of(' '), unit.size()));
    double minutes = 0.0;
    if (unit == "min" || unit == "minutes" || unit == "minute" || unit == "m") minutes = 1.0;
    if (unit == "h" || unit == "hour" || unit == "hours") minutes = 60.0;
    if (unit == "s" || unit == "sec" || unit == "seconds") minutes = 1.0 / 60.0;
    if (digits == 0 || number.is != ValueIs::depth || !(number.value > 0.0) || minutes <= 0.0)
        throw InputError({{{"--interval", 0, 0},
                           "interval",
                           fmt::format("'{}' is no interval; write it as \"15 min\" or \"1 h\"", text),
                           ""}});
    return number.value * minutes;
}

}  // namespace soilhold::input
