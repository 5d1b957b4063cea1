/// The result of estimate and compare as one JSON object in SI units: what other programs may rely on
/// (docs/report.schema.json). `format` changes when a key does.
#pragma once

#include <string>
#include <string_view>

#include "change/comparison.h"

namespace soilhold::report {

inline constexpr int json_format = 1;

/// @param command  "estimate" or "compare"
/// @param version  of the program
/// @param explain  add the steps behind each value
std::string json_report(const change::Comparison& comparison, std::string_view command, std::string_view version,
                        bool explain = false);

}  // namespace soilhold::report
