/// Which columns of a gauge record hold the time and the depth, and in what unit: as the user says, or as the headings
/// do where they leave no doubt.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "input/rain_table.h"

namespace soilhold::input {

struct RainOptions {
    std::string time;           ///< heading or number of the time column; "DATE+CLOCK" for two
    std::string depth;          ///< heading or number of the depth column
    std::string unit;           ///< "in" or "mm"
    std::string kind;           ///< "tips", "interval" or "cumulative"
    std::string interval;       ///< "15 min": of a logger
    std::string tip;            ///< "0.01 in": depth of a tip, for rows that are tips or count them
    std::string zone;           ///< of the stamps: "America/Chicago" or "-06:00"
    std::string stamp;          ///< "end" or "start" of a logger's interval; end when not given
    bool dry_left_out = false;  ///< this logger writes no rows while it is dry
};

struct RainColumns {
    std::size_t time = 0;
    std::optional<std::size_t> clock;  ///< time of day in a column of its own
    std::optional<std::size_t> depth;  ///< none: every row is one tip
    std::optional<std::size_t> zone;   ///< zone of each row
    double mm_per_unit = 1.0;          ///< depth of 1 in the depth column
    std::string unit_words;            ///< "inches, from the heading"
};

/// @throws InputError through `mistakes` when a column or unit is missing or in doubt
RainColumns find_rain_columns(const RainTable& table, const RainOptions& options, RainMistakes& mistakes);

/// "15 min", "1 h", "5": minutes. @throws InputError named after the option
double interval_minutes(const std::string& text);

}  // namespace soilhold::input
