/// Opening a raster with GDAL, and the sentences for what can be wrong with it. For the sources of raster/ only.
#pragma once

#include <string>

#include "raster/gdal_session.h"
#include "raster/placement.h"

namespace soilhold::raster {

struct OpenRaster {
    Dataset dataset;
    Placement placement;
    bool south_up = false;  ///< stored from the south row by row; the placement is that of the turned grid
};

/// @throws RasterError with what would be right
OpenRaster open_raster(const std::string& path);

/// "It can't be read whole: ..." for a file that failed while its cells were read.
[[noreturn]] void refuse_unreadable(const std::string& path, const Listening& listening);

/// The band, from 1. @throws RasterError: no such band, or complex numbers
GDALRasterBandH band_of(const OpenRaster& open, const std::string& path, int number);

}  // namespace soilhold::raster
