/// `rain: gauge:` R from the record of a rain gauge, a file beside the field file, alone or as a section that says how
/// its rows are to be read (docs/gauge-records.md).
///
/// What can't be used becomes a mistake of the document, at the gauge or in the record's own lines.
#pragma once

#include <string>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// @param path  of the field file, beside which the record stands
void read_gauge(const Section& rain, const std::string& path, loss::Field& field);

}  // namespace soilhold::input
