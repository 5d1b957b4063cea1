/// The ranking of a watershed's fields as text, as JSON in SI units (docs/watershed-report.schema.json) and as CSV.
///
/// No field of the file is missing from any of them: it has its row, or stands among those left out with the reason.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "units/unit.h"
#include "watershed/watershed_result.h"

namespace soilhold::report {

inline constexpr int watershed_json_format = 1;

/// "The top fifth of the fields carry 58 % of the tons.", a table of the first N with chance and ties, gaps and
/// repairs, sources, cautions.
/// @param files  written, named at the end; may be empty
std::string watershed_text(const watershed::WatershedResult& result, units::System system,
                           const std::vector<std::string>& files = {});

std::string watershed_json(const watershed::WatershedResult& result, std::string_view version);

/// One row a field, in the order of the ranking; those left out last, with the reason.
std::string watershed_csv(const watershed::WatershedResult& result, units::System system);

/// "The top fifth of the fields (32 of 162) carry 47 % of the tons."; empty for fewer than two fields with a value.
std::string watershed_sentence(const watershed::WatershedResult& result);

/// Fields by the criterion they are ranked by, best first; those without a place (no T) last, in the file's order.
std::vector<const watershed::FieldResult*> in_order(const watershed::WatershedResult& result);

}  // namespace soilhold::report
