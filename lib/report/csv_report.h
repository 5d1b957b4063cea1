/// The result of estimate and compare as CSV for a spreadsheet: one row a figure, each with unit, source and standing.
#pragma once

#include <string>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

/// Columns: record, field, other, quantity, central, low, high, unit, source, standing.
/// `record` is "field", "change" (other: its name) or "pair" (field: from, other: to; ratio is to over from).
std::string csv_report(const change::Comparison& comparison, units::System system);

}  // namespace soilhold::report
