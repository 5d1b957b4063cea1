/// Capped accumulation: the ground that drains through a cell from no further than a number of cells upstream, for any
/// rule of routing.
///
/// a_0 = 1, a_(k+1)(c) = 1 + sum over donors d of share(d to c) a_k(d); the result is a_K, in cells, itself included.
/// The equation's slope length ends at 400 ft or at most 1000 ft anyway: with K = cap / D the ground left out lies
/// further off than that. What ends after K steps is local: a tile with K + 1 cells around it has the same bits as the
/// whole grid, on disk or on many machines, also where water spreads and no single way can be followed
/// (docs/decisions/0001-capped-contributing-area.md). A step across a corner counts as one, though it is sqrt 2 D long.
/// A barrier has its own cell alone, whatever runs into it, as in accumulation.h.
///
/// Needs: filled elevations and their directions (flow_directions.h), which lead where the rule gives no shares.
/// Changes: nothing. Nodata (Direction::none): 0. Border: what leaves the grid is gone. Ties: those of the rule.
/// Memory: 8 bytes a cell, the result, and for each thread 45 bytes times (side + 2 K + 2)^2. Work: K times 8 additions
/// a cell and its margin, so the side of the tiles should not be below K.
/// The same bits for any tile side and number of threads: each cell sums its donors in the order of the ways. Sums are
/// floats: exact for single directions up to 2^24 cells, else within about 1e-6.
#pragma once

#include <cstdint>

#include "terrain/direction.h"
#include "terrain/flow_shares.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Steps within a length: whole cells in it. @throws std::invalid_argument unless both are above 0
std::int64_t steps_within(double length_m, double cell_m);

/// The ground that a tile's sums are worked out from: the tile and K + 1 cells around it, fewer where the grid ends.
struct CappedGround {
    const Grid<float>& filled;
    const Grid<Direction>& directions;
    const Grid<std::uint8_t>* barriers = nullptr;  ///< not 0: the sum starts anew here
};

/// The whole grid. @param steps  K, 0 to 4096
/// @throws std::invalid_argument for grids of other shapes or steps out of range
Grid<double> capped_accumulation(const CappedGround& ground, const ShareRule& rule, std::int64_t steps,
                                 const Tiling& tiling = {});

/// Some rows of it. @param ground  those rows and K + 1 around them, fewer where the grid ends
/// @param first, rows  counted in the ground @return sums of the rows alone
Grid<double> capped_rows(const CappedGround& ground, const ShareRule& rule, std::int64_t steps, std::int64_t first,
                         std::int64_t rows, const Tiling& tiling = {});

/// One tile of it. @param inner  the tile within the ground @return sums of the tile's cells alone
Grid<float> capped_tile(const CappedGround& ground, const ShareRule& rule, std::int64_t steps, const Tile& inner);

}  // namespace soilhold::terrain
