/// The file of a rain gauge -> factors::GaugeRecord, with how it was understood, so that a reader can object.
///
/// Three kinds of file: tips (a row when the bucket tips), a logger's intervals (a row every so many minutes), and a
/// total that only rises (a chart, or a weighing gauge). Which it is shows in the rows, or the user says. Values that
/// the logger doesn't have, and stretches where it wrote no rows, are missing, never dry.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "factors/gauge_record.h"
#include "input/rain_columns.h"
#include "source/remark.h"

namespace soilhold::input {

struct RainRecord {
    factors::GaugeRecord record;
    std::string name;                                          ///< of the file
    std::string kind;                                          ///< "tips", "interval", "cumulative"
    std::vector<std::pair<std::string, std::string>> read_as;  ///< "clock" -> "standard time ..."
    std::size_t rows = 0;
    std::size_t missing_values = 0;
    source::Remarks remarks;
};

/// @param path  "-" is standard input
/// @throws InputError with every mistake of the file (twenty are shown)
RainRecord read_rain_record(const std::string& path, const RainOptions& options = {});

}  // namespace soilhold::input
