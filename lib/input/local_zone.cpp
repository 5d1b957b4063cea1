#include "input/local_zone.h"

#include <array>
#include <chrono>
#include <cmath>
#include <utility>

namespace soilhold::input {

namespace {

namespace time = std::chrono;

constexpr double minutes_a_day = 1440.0;

struct NamedZone {
    std::string_view name;
    LocalZone zone;
};

constexpr LocalZone jumping(int standard_min) { return {standard_min, standard_min, true}; }
constexpr LocalZone still(int standard_min) { return {standard_min, standard_min, false}; }
constexpr LocalZone summer(int standard_min) { return {standard_min + 60, standard_min, false}; }

constexpr std::array<NamedZone, 38> zones{{
    {"America/New_York", jumping(-300)},
    {"America/Detroit", jumping(-300)},
    {"America/Chicago", jumping(-360)},
    {"America/Denver", jumping(-420)},
    {"America/Boise", jumping(-420)},
    {"America/Los_Angeles", jumping(-480)},
    {"America/Anchorage", jumping(-540)},
    {"US/Eastern", jumping(-300)},
    {"US/Central", jumping(-360)},
    {"US/Mountain", jumping(-420)},
    {"US/Pacific", jumping(-480)},
    {"US/Alaska", jumping(-540)},
    {"EST5EDT", jumping(-300)},
    {"CST6CDT", jumping(-360)},
    {"MST7MDT", jumping(-420)},
    {"PST8PDT", jumping(-480)},
    {"America/Phoenix", still(-420)},
    {"US/Arizona", still(-420)},
    {"Pacific/Honolulu", still(-600)},
    {"US/Hawaii", still(-600)},
    {"America/Puerto_Rico", still(-240)},
    {"UTC", still(0)},
    {"GMT", still(0)},
    {"Z", still(0)},
    {"AST", still(-240)},
    {"EST", still(-300)},
    {"CST", still(-360)},
    {"MST", still(-420)},
    {"PST", still(-480)},
    {"AKST", still(-540)},
    {"HST", still(-600)},
    {"EDT", summer(-300)},
    {"CDT", summer(-360)},
    {"MDT", summer(-420)},
    {"PDT", summer(-480)},
    {"AKDT", summer(-540)},
    {"Etc/UTC", still(0)},
    {"Etc/GMT", still(0)},
}};

bool same_letters(std::string_view a, std::string_view b) {
    if (a.size() != b.size()) return false;
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    for (std::size_t i = 0; i < a.size(); ++i)
        if (lower(a[i]) != lower(b[i])) return false;
    return true;
}

/// "-06:00", "+0530", "-6".
std::optional<int> numeric_offset(std::string_view text) {
    if (text.size() < 2 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
    int digits[4] = {0, 0, 0, 0};
    std::size_t n = 0;
    for (std::size_t i = 1; i < text.size(); ++i) {
        if (text[i] == ':' && (n == 1 || n == 2) && i + 3 == text.size()) continue;
        if (text[i] < '0' || text[i] > '9' || n == 4) return std::nullopt;
        digits[n++] = text[i] - '0';
    }
    int hours = 0, minutes = 0;
    if (n == 1)
        hours = digits[0];
    else if (n == 3)
        hours = digits[0], minutes = 10 * digits[1] + digits[2];
    else if (n == 2 || n == 4)
        hours = 10 * digits[0] + digits[1], minutes = n == 4 ? 10 * digits[2] + digits[3] : 0;
    else
        return std::nullopt;
    if (hours > 14 || minutes > 59) return std::nullopt;
    return (text[0] == '-' ? -1 : 1) * (60 * hours + minutes);
}

double two_o_clock(time::sys_days day) {
    return static_cast<double>(day.time_since_epoch().count()) * minutes_a_day + 120.0;
}

struct SummerTime {
    int year = -1;
    double start = 1e300, end = 1e300;  ///< 02:00 of the wall clock on both days
};

SummerTime summer_time_of(int number) {
    using namespace std::chrono;
    SummerTime result;
    result.year = number;
    if (number < 1967) return result;
    const time::year y{number};
    sys_days start = y / April / Sunday[last], end = y / October / Sunday[last];
    if (number == 1974) start = y / January / 6;
    if (number == 1975) start = y / February / 23;
    if (number >= 1987) start = y / April / Sunday[1];
    if (number >= 2007) {
        start = y / March / Sunday[2];
        end = y / November / Sunday[1];
    }
    result.start = two_o_clock(start);
    result.end = two_o_clock(end);
    return result;
}

}  // namespace

std::optional<LocalZone> zone_named(std::string_view name) {
    for (const NamedZone& known : zones)
        if (same_letters(known.name, name)) return known.zone;
    if (const std::optional<int> offset = numeric_offset(name)) return still(*offset);
    return std::nullopt;
}

std::string known_zones() {
    std::string list;
    for (const NamedZone& known : zones)
        if (known.zone.follows_summer_time && known.name.substr(0, 8) == "America/")
            list += (list.empty() ? "" : ", ") + std::string(known.name);
    return list;
}

WallReading read_summer_clock(double wall_min) {
    const auto day = static_cast<int>(std::floor(wall_min / minutes_a_day));
    const int year = static_cast<int>(time::year_month_day{time::sys_days{time::days{day}}}.year());
    const SummerTime summer_time = summer_time_of(year);
    if (wall_min < summer_time.start || wall_min >= summer_time.end) return {WallHour::once, wall_min};
    if (wall_min < summer_time.start + 60.0) return {WallHour::skipped, wall_min};
    return {wall_min >= summer_time.end - 60.0 ? WallHour::twice : WallHour::once, wall_min - 60.0};
}

}  // namespace soilhold::input
