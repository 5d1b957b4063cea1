/// Flow directions: to which of its eight neighbours each cell's water goes (D8), level ground included.
///
/// A cell goes down its steepest way: fall over distance, 1 straight and sqrt 2 across a corner. A cell with no lower
/// neighbour is an outlet if it lies on the border of the grid or beside a nodata cell, else it is flat and is sent
/// away from higher ground and toward the way out (tile_flats.h). No height is changed. Following the directions ends
/// at an outlet from every cell, without a cycle.
///
/// Needs: filled elevations (depressions.h), NaN or infinite for nodata. Changes: nothing. Nodata: Direction::none.
/// Border: a border cell goes to a lower neighbour inside if it has one. Ties: the first of E, S, W, N, SE, SW, NW, NE.
/// Memory: 1 byte a cell, and 16 bytes for each cell of a flat that reaches over the rim of a tile, until done.
/// The same for any tile side and number of threads: heights decide all but the flats, and there distances do.
/// @source  see direction.h and tile_flats.h
#pragma once

#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// @throws std::invalid_argument if level ground or a pit has no way out: the grid was not filled
Grid<Direction> flow_directions(const Grid<float>& filled, const Tiling& tiling = {});

}  // namespace soilhold::terrain
