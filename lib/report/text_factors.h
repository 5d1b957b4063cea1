/// The factors side by side with their sources, and the soak tests, as plain text.
#pragma once

#include <string>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

/// R, K, m, LS, C and P of each field in a table, then where each comes from, with its standing.
std::string factors_side_by_side(const change::Comparison& comparison, units::System system);

/// Counts by class, slump verdicts, means; what the pairs say of each other; how m came about. Empty without tests.
std::string tests_in_text(const change::Comparison& comparison);

}  // namespace soilhold::report
