/// Depressions of a grid larger than memory: what depressions.h does, row of tiles by row of tiles.
///
/// Twice from north to south: first each tile is flooded alone and its rim kept, the rest of its flood stored; once the
/// rims are joined, each tile's cells are raised to the final levels and handed on.
///
/// Needs, changes, nodata, border and ties: depressions.h, of which it has the bits. Memory: a row of tiles with its
/// halo (4 bytes a cell), and about 80 bytes a cell on the rim of a tile while rims are joined; the store takes 2 bytes
/// a cell of the grid, and about 12 a basin.
#pragma once

#include <functional>

#include "terrain/depressions.h"
#include "terrain/stored_grid.h"

namespace soilhold::terrain {

/// @param ground    elevations, NaN for nodata; each row is asked for once more than once
/// @param floods    what is kept of the tiles
/// @param take      filled heights, a row of tiles at a time from north to south; may be changed
/// @param progress  told the share done, 0 to 1; what it throws stops the work
FillReport fill_stored(const Shape& shape, const RowReader<float>& ground, const ByteStore& floods,
                       const std::function<void(std::int64_t row, Grid<float>& filled)>& take, const Tiling& tiling,
                       const std::function<void(double)>& progress);

}  // namespace soilhold::terrain
