/// A raster of ground heights made ready for terrain work: square cells and heights in metres.
///
/// What a file doesn't say is asked for, never guessed: its coordinate system, the unit of its cells, the unit of its
/// heights. Degrees are refused with the option that fixes them. Heights below the sea are fine.
/// Memory: 4 bytes a cell of the result, twice that while it is brought onto another grid; the file is read in pieces.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "raster/height_unit.h"
#include "raster/placement.h"
#include "source/remark.h"
#include "terrain/grid.h"

namespace soilhold::raster {

struct ElevationOptions {
    int band = 1;
    std::string crs;                        ///< --crs: what the file should have said ("EPSG:32617"); empty: as it says
    std::string project;                    ///< --project: "EPSG:32617", "auto" (the UTM zone of its centre), or empty
    std::optional<LengthUnit> cell_unit;    ///< --cell-unit: of the map, for a file without a coordinate system
    std::optional<LengthUnit> height_unit;  ///< --height-unit
    std::optional<double> nodata;           ///< --nodata: as stored, where the file forgot to say it
    double cell_m = 0;                      ///< --cell: width of the working cell, m; 0: as the file has it
    std::int64_t most_cells = 500'000'000;  ///< refused above: terrain work needs several such grids in memory
};

struct Elevation {
    terrain::Grid<float> height_m;  ///< NaN for none
    Placement placement;            ///< in its own coordinate system, which may be in feet
    source::Remarks remarks;        ///< what was done, in sentences
};

/// The whole file. @throws RasterError as HeightsFile (heights_file.h)
Elevation read_elevation(const std::string& path, const ElevationOptions& options = {});

}  // namespace soilhold::raster
