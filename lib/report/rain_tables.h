/// The forms of a gauge record's result that other programs read: one JSON object in SI units
/// (docs/rain-report.schema.json), and CSV with a row a storm, year, half month and gap.
#pragma once

#include <string>

#include "report/rain_report.h"
#include "units/unit.h"

namespace soilhold::report {

std::string rain_csv(const RainResult& result, units::System system);
std::string rain_json(const RainResult& result, const std::string& version);

}  // namespace soilhold::report
