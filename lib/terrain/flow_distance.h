/// How far each cell's water runs until it meets a channel, along its flow directions.
///
/// d(c) = 0 in a channel, else the step to the next cell (D straight, D sqrt 2 across a corner) plus its d. The cells'
/// centres count, so a cell beside a channel is one step away.
///
/// Needs: directions without a cycle (flow_directions.h), and which cells are channels. Changes: nothing. Nodata: NaN.
/// Border: where the water leaves the grid before it meets a channel the distance is not known: NaN. Ties: none.
/// Memory: 4 bytes a cell, the result, and 8 for each cell of the longest way. One thread; no tiles, so no sides.
#pragma once

#include <cstdint>

#include "terrain/direction.h"
#include "terrain/grid.h"

namespace soilhold::terrain {

/// @param channels  not 0: the cell is a channel
/// @return          m
/// @throws std::invalid_argument for grids of two shapes, directions that run in a circle or out of the grid
Grid<float> flow_distance(const Grid<Direction>& directions, const Grid<std::uint8_t>& channels);

}  // namespace soilhold::terrain
