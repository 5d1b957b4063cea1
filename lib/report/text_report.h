/// The result of estimate and compare for a terminal: 80 columns of plain characters, the answer first, then the
/// figures, the factors with their sources, the tests, what is not known, the cautions.
#pragma once

#include <string>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

std::string text_report(const change::Comparison& comparison, units::System system);

}  // namespace soilhold::report
