/// The working behind an estimate, for --explain: each value as a line of a worked exercise, with the numbers in it and
/// whose equation or figure it is, so that a reader with a pocket calculator comes to the same.
///
/// It follows the usual text rather than replacing part of it: whoever asks for the working still gets the answer
/// first, and the usual text stays the same byte for byte.
#pragma once

#include <string>

#include "change/comparison.h"

namespace soilhold::report {

/// 80 columns of plain characters. SI and US figures stand side by side, since equations come in either.
std::string working_text(const change::Comparison& comparison);

/// "148.2 US" of a value in SI, "" for units that need no second reading.
std::string second_reading(double value, const std::string& unit);

}  // namespace soilhold::report
