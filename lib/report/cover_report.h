/// What `soilhold cover` says in the terminal: sentence, C and loss of each way to farm, the half-months, where the
/// figures come from, cautions. Plain characters, 80 columns.
#pragma once

#include <string>

#include "report/cover_result.h"

namespace soilhold::report {

std::string cover_text(const std::vector<CoverOfField>& fields, units::System system);

/// Remarks on C of all ways of a field, each once.
source::Remarks cover_remarks(const CoverOfField& field);

}  // namespace soilhold::report
