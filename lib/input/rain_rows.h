/// The rows of a gauge record: when, how much, and what the logger has no value for, on one clock without jumps.
///
/// Stamps with an offset, with a zone in a column beside them, or in a zone that the user names are brought to the
/// standard time of that zone. Of an hour that a clock shows twice in autumn, stamps belong to the first until the
/// clock goes back, then to the second; an hour that it skips in spring can't stand in a record. Without any zone the
/// clock is taken as it stands: standard time the whole year.
#pragma once

#include <string>
#include <vector>

#include "input/rain_columns.h"
#include "input/rain_table.h"
#include "source/remark.h"

namespace soilhold::input {

struct RainRow {
    double minute = 0.0;    ///< since 1970-01-01 00:00 in standard time
    double depth_mm = 0.0;  ///< as the column says: of a tip, of an interval, or in all
    int line = 0;
    bool missing = false;
};

struct RainRows {
    std::vector<RainRow> rows;  ///< in order of time; two may share a minute
    std::string clock_words;    ///< "America/Chicago, brought to standard time (UTC-06:00)"
    bool zone_known = false;
    std::size_t missing_values = 0;
    source::Remarks remarks;
};

/// @throws InputError through `mistakes` with up to twenty rows that can't be read
RainRows read_rain_rows(const RainTable& table, const RainColumns& columns, const RainOptions& options,
                        RainMistakes& mistakes);

/// The line with this number, for a message.
std::string_view line_numbered(const RainTable& table, int number);

}  // namespace soilhold::input
