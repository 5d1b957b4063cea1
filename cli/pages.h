/// The pages that --out asks for: which files, and their bytes.
#pragma once

#include <vector>

#include "change/comparison.h"
#include "options.h"
#include "report/output.h"

namespace soilhold::cli {

/// One page a pair, or one a field where nothing is compared. NAME makes NAME.pdf and NAME.html; NAME.pdf, .html, .svg
/// or .png makes only that. Several pages of one run carry the fields' names.
/// @throws report::OutputError when a page can't be drawn (no Open Sans on the machine, say)
std::vector<report::Output> pages(const change::Comparison& comparison, const Options& options);

}  // namespace soilhold::cli
