/// Accumulation: how much ground drains through each cell, itself included, in cells or in weights.
///
/// A(c) = w(c) + sum of A over the cells whose direction leads to c. At a barrier the sum starts anew: a barrier cell
/// has its own weight alone, whatever runs into it (a field's edge, a road, a terrace).
///
/// Needs: directions without a cycle (flow_directions.h). Changes: nothing. Nodata (Direction::none): 0. Border: what
/// leaves the grid or enters a hole is gone; the sums at outlets and those that end at barriers make up the whole.
/// Ties: none. Memory: 8 bytes a cell, the result.
/// The same bits for any tile side and number of threads, though tiles add in another order: weights are rounded to
/// whole steps of 2^-20 (a millionth), and sums of whole steps below 2^53 of them are exact in a double, so no order
/// matters. Without weights a cell counts 1.
/// @source  Barnes, R. (2017): Parallel non-divergent flow accumulation for trillion cell digital elevation models on
///          desktops or clusters. Environmental Modelling & Software 92 (tiles joined at their rims). From memory.
#pragma once

#include <cstdint>

#include "terrain/direction.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// What may stand beside the directions; each of the same shape, or null.
struct AccumulationInputs {
    const Grid<float>* weights = nullptr;          ///< of each cell, 0 to 2^33 in all; NaN counts as 0
    const Grid<std::uint8_t>* barriers = nullptr;  ///< not 0: the sum starts anew here
};

/// @throws std::invalid_argument for grids of other shapes, a negative or infinite weight, weights of more than 2^33 in
///         all, or directions that run in a circle or out of the grid
Grid<double> accumulate(const Grid<Direction>& directions, const AccumulationInputs& inputs = {},
                        const Tiling& tiling = {});

}  // namespace soilhold::terrain
