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

/// Fields by the criterion they are ranked by, best first; those without a place (no T) last, in the file's order.
std::vector<const watershed::FieldResult*> in_order(const watershed::WatershedResult& result);

}  // namespace soilhold::report
