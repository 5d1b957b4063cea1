/// The pages that --out asks for: which files, and their bytes.
#pragma once

#include <vector>

#include "change/comparison.h"
#include "options.h"
#include "report/output.h"
#include "report/page.h"

namespace soilhold::cli {

/// A name of --out and the files that it asks for.
struct Target {
    std::string stem;
    std::vector<std::string> endings;  ///< ".pdf"
};
Target target_of(const std::string& out);

/// "Wether Fold" as part of a file's name: wether-fold.
std::string file_part(const std::string& name);

/// Paper, units and date of a run.
report::PageSettings page_settings(const Options& options);

/// One page a pair, or one a field where nothing is compared. NAME makes NAME.pdf and NAME.html; NAME.pdf, .html, .svg
/// or .png makes only that. Several pages of one run carry the fields' names.
/// @throws report::OutputError when a page can't be drawn (no Open Sans on the machine, say)
std::vector<report::Output> pages(const change::Comparison& comparison, const Options& options);

}  // namespace soilhold::cli
