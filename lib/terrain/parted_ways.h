/// Ways that end where they would lead into another part of the ground, so that each part's ground is its own: a field
/// has no slope above its edge.
///
/// d'(c) = d(c) where c and the cell that its water goes to are of one part, else an outlet. Summed along d', the
/// ground that drains through a cell is that of its part alone, as if the part were cut out of the grid; barriers of
/// their own (accumulation.h) would take a row of cells out of each field.
///
/// Needs: directions (flow_directions.h) and the part of each cell, any numbers. Changes: nothing. Nodata
/// (Direction::none): itself. Border: as before. Ties: none. Memory: 1 byte a cell, the result.
/// The same for any number of threads, each cell being local.
#pragma once

#include <cstdint>

#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// @throws std::invalid_argument for grids of two shapes, or directions that lead out of the grid
Grid<Direction> parted_ways(const Grid<Direction>& directions, const Grid<std::int32_t>& parts,
                            const Tiling& tiling = {});

}  // namespace soilhold::terrain
