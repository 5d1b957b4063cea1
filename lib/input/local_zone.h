/// The clock of a gauge beside the standard time of its place: what its stamps mean, and the hours of spring and autumn
/// that a summer-time clock leaves out or shows twice.
///
/// Summer time here is that of the United States, which changes at 02:00 of the local clock: since 2007 from the second
/// Sunday of March to the first of November, 1987 to 2006 from the first Sunday of April to the last of October, 1967
/// to 1986 from the last Sunday of April (1974: 6 January, 1975: 23 February). Earlier years are taken without it.
/// @source Uniform Time Act of 1966 and its amendments (from memory)
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace soilhold::input {

struct LocalZone {
    int offset_min = 0;                ///< of the stamps, when no summer time is followed; east is positive
    int standard_min = 0;              ///< of the place's standard time: for CDT -360, though its stamps are at -300
    bool follows_summer_time = false;  ///< the clock jumps; offset_min is then that of winter
    bool operator==(const LocalZone&) const = default;
};

/// "America/Chicago", "US/Central", "CST6CDT", "CST", "CDT", "UTC", "-06:00", "+0530". Nothing for names not known
/// here.
std::optional<LocalZone> zone_named(std::string_view name);

/// The names that follow summer time, for messages.
std::string known_zones();

enum class WallHour { once, skipped, twice };

struct WallReading {
    WallHour hour = WallHour::once;
    double standard = 0.0;  ///< minutes since 1970 in the zone's standard time; of an hour shown twice its first
};

/// What a wall clock of the United States with summer time shows. Of an hour shown twice the second is 60 minutes
/// later; a skipped hour is read as standard time.
/// @param wall_min  minutes since 1970 as the clock shows them
WallReading read_summer_clock(double wall_min);

}  // namespace soilhold::input
