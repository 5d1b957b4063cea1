/// What a file of heights will be read as, settled before any height is read: its coordinate system, the unit of its
/// heights, the working grid. For the sources of raster/ only.
#pragma once

#include <optional>
#include <string>

#include "raster/elevation.h"
#include "raster/warped.h"

namespace soilhold::raster {

struct HeightsPlan {
    Placement placement;            ///< of the working grid
    terrain::Shape shape;           ///< in metres
    std::string crs;                ///< of the file, as WKT: what it says, or what was asked for
    double height_m = 1;            ///< metres in a unit of its heights
    std::optional<Resampling> how;  ///< how cells get their heights; none: they are those of the file
    source::Remarks remarks;
};

/// @throws RasterError as HeightsFile
HeightsPlan plan_heights(const Layer& layer, const OpenRaster& open, const ElevationOptions& options);

}  // namespace soilhold::raster
