/// The forms of the cover command for other programs: one JSON object in SI units (docs/cover-report.schema.json), and
/// CSV with a row for each half-month and way to farm.
#pragma once

#include <string>

#include "report/cover_result.h"

namespace soilhold::report {

std::string cover_json(const std::vector<CoverOfField>& fields, const std::string& version);

/// Columns: field, way, year, half_month, begins, happenings, cover_pct, canopy_pct, roughness, PLU, CC, SC, SR, SLR,
/// erosivity_share, product, share_of_loss, loss; roughness and loss in the units that their headings name.
std::string cover_csv(const std::vector<CoverOfField>& fields, units::System system);

}  // namespace soilhold::report
