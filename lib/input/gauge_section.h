/// `rain: gauge:` R from the record of a rain gauge, a file beside the field file, alone or as a section that says how
/// its rows are to be read (docs/gauge-records.md).
///
/// What can't be used becomes a mistake of the document, at the gauge or in the record's own lines.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// Where a field file stands, and the gauge records that it named so far: one that a farm's fields share is read once.
struct FilesBeside {
    std::string path;  ///< of the field file; "-" is standard input
    /// By name and options; nothing where the record can't be used, which is told once.
    std::map<std::string, std::optional<factors::GaugeErosivity>> gauges{};
};

void read_gauge(const Section& rain, FilesBeside& files, loss::Field& field);

}  // namespace soilhold::input
