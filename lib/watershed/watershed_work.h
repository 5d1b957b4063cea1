/// A watershed worked from its file to its ranking: heights to LS, maps onto their grid, loss, fields, places.
///
/// Memory: 25 to 41 bytes a cell by what the file names (watershed_memory.h). The same bits for any number of threads.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>

#include "input/watershed_file.h"
#include "raster/elevation.h"
#include "terrain/grid.h"
#include "watershed/loss_classes.h"
#include "watershed/watershed_result.h"

namespace soilhold::watershed {

struct WorkSettings {
    std::optional<std::size_t> visits;  ///< instead of the file's
    std::size_t draws = 1000;
    std::uint64_t seed = 1;
    int threads = 0;          ///< 0: as many as the machine has
    std::int64_t memory = 0;  ///< bytes it may take, refused above (watershed_memory.h); 0: nobody asks
};

struct WorkedWatershed {
    WatershedResult result;
    terrain::Grid<float> loss;          ///< t/(ha yr)
    terrain::Grid<float> slope_factor;  ///< LS
    LossClasses classes;
};

/// How the file says its heights are to be read: whoever reads them again gets the grid of the result.
/// @throws raster::RasterError for a unit that is none
raster::ElevationOptions elevation_options(const input::WatershedFile& file);

/// @param progress  told the share done, 0 to 1; false stops the work. Empty: nobody asks
/// @throws input::InputError and raster::RasterError for what can't be used; Stopped (slope_map.h)
WorkedWatershed work_watershed(const input::WatershedFile& file, const WorkSettings& settings,
                               const std::function<bool(double)>& progress = {});

}  // namespace soilhold::watershed
