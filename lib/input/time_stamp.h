/// A time stamp of a gauge record, read from its bytes.
///
/// Taken: 2016-05-01 14:05, 2016-05-01T14:05:30Z, 2016/5/1 14:05-06:00, 20160501 1405, 201605011405, and the
/// month-first form of the United States 5/1/2016 14:05 or 5/1/16 2:05 PM. 24:00 is the midnight that ends the day. A
/// date without a time is its first minute.
#pragma once

#include <optional>
#include <string_view>

namespace soilhold::input {

struct TimeStamp {
    double minute = 0.0;            ///< since 1970-01-01 00:00 of the clock that wrote it
    std::optional<int> offset_min;  ///< of that clock from universal time, where the stamp says so
    bool has_time = false;
    const char* wrong = nullptr;  ///< why it is no time stamp
};

TimeStamp read_time_stamp(std::string_view text);

/// "14:05", "2:05:30 PM", "1405": minutes of the day, or nothing.
std::optional<double> read_time_of_day(std::string_view text);

/// "2016-05-01 14:05".
std::string_view plain_stamp(double minute, char (&buffer)[17]);

}  // namespace soilhold::input
