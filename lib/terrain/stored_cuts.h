/// The cuts of a grid larger than memory: what breaching.h does, row of tiles by row of tiles.
///
/// Needs, changes, nodata, border and ties: breaching.h, of which it has the bits. Memory: a row of tiles with the
/// rows that a cut from it can reach on both sides (4 bytes a cell), and 12 bytes for each cell that a cut lowers.
#pragma once

#include <functional>

#include "terrain/breaching.h"
#include "terrain/stored_grid.h"

namespace soilhold::terrain {

/// Whoever reads the ground afterwards lowers its rows with lower_cells. The report has the volume.
/// @param ground    elevations, NaN for nodata; each row is asked for more than once
/// @param progress  told the share done, 0 to 1; what it throws stops the work
/// @throws std::invalid_argument as CutSearch
Cuts stored_cuts(const Shape& shape, const RowReader<float>& ground, const CutLimits& limits, const Tiling& tiling,
                 const std::function<void(double)>& progress);

}  // namespace soilhold::terrain
