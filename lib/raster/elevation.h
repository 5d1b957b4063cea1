/// A raster of ground heights made ready for terrain work: square cells and heights in metres.
///
/// What a file doesn't say is asked for, never guessed: its coordinate system, the unit of its cells, the unit of its
/// heights. Degrees are refused with what fixes them, an option or a key of a file. Heights below the sea are fine.
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

/// What messages call the ways to say what a file of heights lacks: options of a command line, or keys of a file.
struct HeightsWords {
    std::string crs = "--crs", project = "--project", cell_unit = "--cell-unit", height_unit = "--height-unit",
                nodata = "--nodata", cell = "--cell";
    std::string between = " ";  ///< a name and its value
    std::string quote;          ///< around them
    std::string where;          ///< they go: " under 'elevation'"
    /// "--height-unit m", "'heights: m'"
    std::string with(const std::string& name, const std::string& value) const {
        return quote + name + between + value + quote;
    }
    std::string alone(const std::string& name) const { return quote + name + quote; }
};

struct ElevationOptions {
    int band = 1;
    std::string crs;                        ///< what the file should have said ("EPSG:32617"); empty: as it says
    std::string project;                    ///< "EPSG:32617", "auto" (the UTM zone of its centre), or empty
    std::optional<LengthUnit> cell_unit;    ///< of the map, for a file without a coordinate system
    std::optional<LengthUnit> height_unit;  ///< where the file doesn't say it
    std::optional<double> nodata;           ///< as stored, where the file forgot to say it
    double cell_m = 0;                      ///< width of the working cell, m; 0: as the file has it
    std::int64_t most_cells = 500'000'000;  ///< refused above: terrain work needs several such grids in memory
    HeightsWords words;                     ///< for messages
    int threads = 0;                        ///< that read; 0: as many as the machine has
};

struct Elevation {
    terrain::Grid<float> height_m;  ///< NaN for none
    Placement placement;            ///< in its own coordinate system, which may be in feet
    source::Remarks remarks;        ///< what was done, in sentences
    std::int64_t cells_with_height = 0;
};

/// The whole file. @throws RasterError as HeightsFile (heights_file.h)
Elevation read_elevation(const std::string& path, const ElevationOptions& options = {});

}  // namespace soilhold::raster
