/// What `soilhold rain` says of a gauge record: R with its doubt, the years, the half months, the storms, and what was
/// not recorded, as text of 80 columns; rain_tables.h has the forms for other programs.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "factors/gauge_record.h"
#include "factors/long_term_erosivity.h"
#include "source/remark.h"
#include "units/unit.h"

namespace soilhold::report {

struct RainResult {
    std::string file;
    std::vector<std::pair<std::string, std::string>> read_as;  ///< how the file was understood
    std::size_t rows = 0;
    std::size_t missing_values = 0;
    source::Remarks file_remarks;
    factors::GaugeRecord record;
    factors::RecordErosivity erosivity;
    std::optional<factors::LongTermErosivity> long_term;
};

/// Works the record out; pages compute nothing.
RainResult rain_result(factors::GaugeRecord record);

std::string rain_text(const RainResult& result, units::System system);

/// "2016-05-31 14:05" of minutes since 1970.
std::string stamp_of(double minute);

/// "too little rain: 9.1 mm in all, 3.0 mm in 15 minutes": why a storm is left out; empty when it counts.
std::string why_left_out(const factors::JudgedStorm& judged, units::System system);

/// Remarks of the file and of the record, in order.
source::Remarks all_remarks(const RainResult& result);

}  // namespace soilhold::report
