/// Accumulation on a grid larger than memory: what accumulation.h does, row of tiles by row of tiles, each cell
/// bringing 1.
///
/// Once from north to south each tile is summed alone and its rim kept; when the rims are joined, the sums of any rows
/// of tiles can be had, summed again with what arrives from the others.
///
/// Needs, nodata, border, barriers and ties: accumulation.h, of which it has the bits. Memory: the rows of tiles with
/// their halo, 1 byte a cell, 2 with barriers; their sums 8; about 60 bytes a cell on the rim of a tile while rims are
/// joined, 8 from then on.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "terrain/direction.h"
#include "terrain/stored_grid.h"
#include "terrain/tile_rows.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// What arrives at each rim cell of each tile from other tiles.
using Arrivals = std::vector<std::vector<double>>;

/// @param barriers  not 0: the sum starts anew here; empty: there are none
/// @param progress  told the share done, 0 to 1; what it throws stops the work
/// @throws std::invalid_argument for directions that run in a circle or out of the grid
Arrivals stored_arrivals(const TileCut& cut, const RowReader<Direction>& directions,
                         const RowReader<std::uint8_t>& barriers, int threads,
                         const std::function<void(double)>& progress);

/// The sums of rows of tiles. Runs on the threads of whoever calls it.
/// @param directions, barriers  with a halo of 1, as tile_rows() says; barriers null for none
Grid<double> stored_sums(const TileCut& cut, const TileRows& strip, const Grid<Direction>& directions,
                         const Grid<std::uint8_t>* barriers, const Arrivals& arrivals);

}  // namespace soilhold::terrain
