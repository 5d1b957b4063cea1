/// The sheet that --map asks for: a watershed's map as PDF, SVG or PNG.
#pragma once

#include <string>

#include "input/watershed_file.h"
#include "units/unit.h"
#include "watershed/watershed_result.h"

namespace soilhold::cli {

/// @param path  its ending, .pdf, .svg or .png, says what is made
/// @throws report::OutputError when it can't be drawn (no Open Sans on the machine, say)
std::string map_bytes(const std::string& path, const input::WatershedFile& file,
                      const watershed::WatershedResult& result, units::System system);

}  // namespace soilhold::cli
