/// The slope factor LS of a raster of heights, from the file to the grids: read, slope, fill, route, gather, LS.
///
/// Needs: a raster of heights (raster/elevation.h). Order: the slope is taken from the ground as surveyed; water is
/// routed over the ground with its pits cut open or filled (pits.h); the ground that drains into each cell starts anew
/// at barriers and at the edges of fields and is held to the longest slope, measured along the way its water takes
/// (crossed_contour.h); cells from a drained area on, which no barrier makes smaller, are channels and have no LS.
/// Nodata: cells without a height have no value in any grid; water leaves there, as at the border. Memory: at most 18
/// bytes a cell, 21 where water spreads: grids go as soon as nothing needs them. The same bits for any number of
/// threads.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "raster/elevation.h"
#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/slope_length_grid.h"
#include "watershed/loss_factors.h"
#include "watershed/map_spread.h"
#include "watershed/map_strips.h"
#include "watershed/pits.h"

namespace soilhold::watershed {

/// Where water goes from a cell.
enum class Routing {
    d8,          ///< all to the neighbour down the steepest way
    d_infinity,  ///< to the one or two neighbours that the line of fall lies between
    multiple,    ///< to all lower neighbours, more where it falls more steeply
};

/// Areas that get no water from one another, nor from the ground around them: a cell is that one's which holds its
/// centre (terrain/parted_ways.h).
struct FieldGround {
    std::string path, layer;
};

struct SlopeMapOptions {
    raster::ElevationOptions elevation;
    std::vector<std::string> barriers;  ///< vector files: lines, and the edges of areas
    std::optional<FieldGround> fields;  ///< whose ground is their own; with single directions only
    terrain::SlopeLengthRules rules{.rill_ratio = factors::RillRatio::moderate,
                                    .longest_slope_m = terrain::usual_longest_slope_m,
                                    .channel_from_m2 = 20'000};
    Routing routing = Routing::d8;
    PitRules pits;
    std::optional<FactorsGiven> factors;     ///< none: no loss is worked
    std::string folder = ".";                ///< for scratch files: layers that lie on another grid, maps from the disk
    std::string channel_word = "--channel";  ///< what messages call the drained area from which a cell is a channel
    int threads = 0;                         ///< 0: as many as the machine has
    /// Bytes it may take; what takes more is worked from the disk (map_from_disk.h). 0: all in memory.
    std::int64_t memory = 0;
};

struct SlopeMapResult {
    raster::Placement placement;
    terrain::Shape shape;
    std::int64_t cells_with_height = 0;
    std::int64_t channel_cells = 0;
    std::int64_t barrier_cells = 0;
    double largest_basin_m2 = 0;  ///< drained by the largest stream
    PitReport pits;
    Spread gradient;      ///< rise over run
    Spread slope_factor;  ///< LS
    Spread loss;          ///< t/(ha yr); no cells without factors
    source::Remarks remarks;
};

/// The work was stopped by its progress callback.
struct Stopped {};

/// @param progress  told the share done, 0 to 1; false stops the work. Empty: nobody asks
/// @throws raster::RasterError, raster::WriteError (of the takers), std::invalid_argument for rules out of range,
/// Stopped
SlopeMapResult slope_map(const std::string& path, const SlopeMapOptions& options, const MapTakers& takers,
                         const std::function<bool(double)>& progress = {});

}  // namespace soilhold::watershed
