#include "input/tests_section.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "input/clods_section.h"
#include "input/figure.h"
#include "soiltest/summary.h"
namespace soilhold::input {

namespace {

using units::Kind;

constexpr double day_s = 86400.0;

std::optional<std::chrono::year_month_day> date_of(const std::string& text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U, 8U, 9U})
        if (!digit(i)) return std::nullopt;
    const auto number = [&](std::size_t at, std::size_t length) { return std::stoi(text.substr(at, length)); };
    const std::chrono::year_month_day date{std::chrono::year{number(0, 4)},
                                           std::chrono::month{static_cast<unsigned>(number(5, 2))},
                                           std::chrono::day{static_cast<unsigned>(number(8, 2))}};
    if (!date.ok() || date.year() < std::chrono::year{1900}) return std::nullopt;
    return date;
}

std::optional<double> days(const Section& tests, std::string_view key) {
    const auto time = figure(tests, key, Kind::duration);
    if (!time) return std::nullopt;
    if (time->stated.value < 0) {
        tests.reader().mistake(time->at, "range", fmt::format("'{}' is a time that has passed, 0 days or more", key));
        return std::nullopt;
    }
    return time->stated.value / day_s;
}

/// "6 to 8 mm", or "7 mm" for both.
std::optional<std::pair<double, double>> size_range(const Section& tests, std::string_view key, double most_mm) {
    const Reader& reader = tests.reader();
    const Node* node = tests.find(key);
    const auto text = node ? scalar_text(reader, *node, key) : std::nullopt;
    if (!text) return std::nullopt;
    try {
        std::pair<double, double> sizes;
        if (text->find(" to ") != std::string::npos) {
            const auto [low, high] = units::read_range(Kind::small_length, *text);
            sizes = {low.si, high.si};
        } else {
            const double size = units::read(Kind::small_length, *text).si;
            sizes = {size, size};
        }
        if (sizes.first >= 0 && sizes.second > 0 && sizes.second <= most_mm) return sizes;
        reader.mistake(node->at, "range",
                       fmt::format("'{}' is '{}', and lies between 0 and {:g} mm ({:.3g} in)", key, *text, most_mm,
                                   most_mm / 25.4));
    } catch (const units::ReadingError& error) {
        reader.mistake(
            node->at, error.code,
            fmt::format("{}: {}{}", key, error.what(),
                        text->find('-') != std::string::npos ? "; a range is written with 'to', like 6 to 8 mm" : ""));
    }
    return std::nullopt;
}

void read_handling(const Section& tests, soiltest::Handling& handling) {
    const Reader& reader = tests.reader();
    if (const auto text = tests.text("date")) {
        handling.date = date_of(*text);
        if (!handling.date)
            reader.mistake(
                tests.find("date")->at, "date",
                fmt::format("'{}' is no date as files write it: year-month-day, like 2026-04-08, so that nobody "
                            "takes the month for the day",
                            *text));
    }
    handling.drying_days = days(tests, "drying");
    handling.days_since_tillage = days(tests, "tilled");
    handling.days_since_rain = days(tests, "rain");
    if (const auto sizes = size_range(tests, "clod size", 150)) {
        handling.clod_least_mm = sizes->first;
        handling.clod_most_mm = sizes->second;
        if (sizes->first * 2 < sizes->second)
            reader.caution(tests.find("clod size")->at, "clod-sizes-mixed",
                           fmt::format("Clods of {:g} to {:g} mm are mixed sizes, and big clods slake differently from "
                                       "small ones. Sort them with a sieve or a template, 6 to 8 mm",
                                       sizes->first, sizes->second));
    }
    if (const auto depth = size_range(tests, "depth", 1000)) {
        handling.depth_top_mm = depth->first == depth->second ? 0.0 : depth->first;
        handling.depth_bottom_mm = depth->second;
    }
    handling.water = tests.text("water").value_or("");
    handling.scorer = tests.text("scorer").value_or("");
    handling.blind = tests.yes_no("blind");
    static constexpr auto positions = std::to_array<std::string_view>({"field", "fencerow", "headland", "wheel track"});
    if (const auto word = tests.word("position", positions)) {
        using enum soiltest::SpotPosition;
        handling.position = *word == "field"      ? field
                            : *word == "fencerow" ? fencerow
                            : *word == "headland" ? headland
                                                  : wheel_track;
    }
}

void read_laboratory(const Section& tests, soiltest::Record& record) {
    const Reader& reader = tests.reader();
    for (const double share : figures_of(tests, "water-stable aggregates", Kind::share)) {
        record.water_stable_pct.push_back(100 * share);
        if (share < 0 || share > 1)
            reader.mistake(tests.find("water-stable aggregates")->at, "range",
                           fmt::format("{:g} % of water-stable aggregates lies outside 0 to 100 %", 100 * share));
    }
    for (const double mm : figures_of(tests, "mean weight diameter", Kind::small_length)) {
        record.mean_weight_diameter_mm.push_back(mm);
        if (mm < 0 || mm > 10)
            reader.mistake(tests.find("mean weight diameter")->at, "range",
                           fmt::format("A mean weight diameter of {:g} mm can't be right; after fast wetting it lies "
                                       "between 0 and about 3.5 mm",
                                       mm));
    }
}

/// The key that a remark of the test's summary is about.
std::string_view key_of(const std::string& code) {
    if (code == "half-dry") return "drying";
    if (code == "recent-rain") return "rain";
    if (code == "recent-tillage") return "tilled";
    if (code == "not-the-field" || code == "wheel-track") return "position";
    if (code == "possible-dispersion") return "cloudiness";
    if (code == "soak-time-unusual") return "slump";
    return "slake";
}

/// What the tests say of themselves, with its place in the file. The estimate says it too, and once is enough.
void place_remarks(const Section& tests, const std::string& texture_class, loss::Field& field) {
    for (source::Remark remark : soiltest::summarise(field.tests, texture_class).remarks) {
        const Node* node = tests.find(key_of(remark.code));
        remark.place = tests.reader().document.where(node ? node->at : tests.at());
        field.remarks.push_back(std::move(remark));
    }
}

}  // namespace

void read_tests(const Section& tests, const std::string& texture_class, loss::Field& field) {
    soiltest::Record& record = field.tests;
    read_handling(tests, record.handling);
    if (const Node* slake = tests.find("slake")) read_slake(tests.reader(), *slake, record);
    if (const Node* slump = tests.find("slump")) read_slump(tests.reader(), *slump, record);
    read_laboratory(tests, record);
    static constexpr auto clouds = std::to_array<std::string_view>({"none", "slight", "strong"});
    if (const auto word = tests.word("cloudiness", clouds)) {
        using enum soiltest::Cloudiness;
        record.cloudiness = *word == "none" ? none : *word == "slight" ? slight : strong;
    }
    place_remarks(tests, texture_class, field);
}

}  // namespace soilhold::input
