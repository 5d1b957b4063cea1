/// What is asked of a raster that is brought onto a grid, and what is said of what it lacks there. For the sources of
/// raster/ only.
#pragma once

#include <cstdint>
#include <string>

#include "raster/onto.h"
#include "raster/warped.h"

namespace soilhold::raster {

/// @throws RasterError (unknown-crs, no-crs)
Source source_for(const std::string& path, const OpenRaster& open, const Placement& placement,
                  const OntoOptions& options);

/// @param none  cells without a value from it. @throws RasterError (not-here) where that is all
void say_what_is_missing(const std::string& path, std::int64_t none, std::int64_t cells, source::Remarks& remarks);

}  // namespace soilhold::raster
