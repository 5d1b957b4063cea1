/// What estimate and compare share: reading the fields of all files, and handing a result to standard output and the
/// page.
#pragma once

#include <vector>

#include "change/comparison.h"
#include "options.h"

namespace soilhold::cli {

/// Fields of every file, in order; mistakes of all files are reported together.
std::vector<loss::Field> read_fields(const Options& options);

/// Prints the result in the form asked for, and writes the pages; nothing is printed unless everything could be made.
/// @return limit_not_met when --at-most was given and a field loses more
Exit deliver(const change::Comparison& comparison, const Options& options, const char* command);

}  // namespace soilhold::cli
