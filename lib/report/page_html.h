/// The same page as one HTML file that needs nothing else: real headings, sentences and tables, drawings inside, the
/// typeface inside, no script. It reads on a telephone and prints on one sheet.
#pragma once

#include <string>

#include "report/page_content.h"
#include "report/page_layout.h"
#include "report/scene.h"

namespace soilhold::report {

/// @param measure  for the drawings
std::string html_of(const PageContent& content, Paper paper, const Measure& measure);

}  // namespace soilhold::report
