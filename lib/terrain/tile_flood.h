/// The flood of one tile: which basin each of its cells drains to, and how high each basin fills inside the tile.
///
/// Every cell points to its lowest neighbour, so that the cells fall apart into basins, one to each pit. A cell on the
/// tile's rim points along the rim only: the lowest cells of the rim are the tile's outlets, for beyond them the tile
/// can't see. A cell beside a nodata cell or the border of the grid drains to outlet 0, the outside. Basins are then
/// joined across their lowest saddles until each knows an outlet and the height at which it spills there.
/// That is a priority flood taken basin by basin instead of cell by cell, and gives the same levels to the bit,
/// since every level is the height of some cell.
///
/// Needs: the tile's elevations with their halo. Changes: nothing. Nodata: NaN, an outlet; beyond the grid the halo
/// must be NaN as well. Ties: of equal neighbours the earlier in reading order counts as lower.
/// Memory: about 20 bytes a cell of the tile while it is worked, and 16 for each pair of neighbours in two basins; 2
/// bytes a cell of the result (4 in tiles with more than 65535 basins).
/// @source  Barnes (2016) and Cordonnier et al. (2019), see spill_graph.h;
///          Barnes, R., Lehman, C., Mulla, D. (2014): Priority-flood. Computers & Geosciences 62. From memory.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "terrain/spill_graph.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// What a tile tells about its rim; small, and all that the other tiles need.
struct FloodRim {
    std::uint32_t outlets = 1;          ///< outlet 0 is the outside, the others lie on the rim
    std::vector<std::uint32_t> outlet;  ///< of each rim cell (along_rim)
    std::vector<float> height;          ///< of each rim cell, m
    std::vector<Saddle> between;        ///< saddles between outlets inside the tile
};

struct TileFlood {
    std::int64_t rows = 0;
    std::int64_t columns = 0;
    std::vector<std::uint16_t> basin;       ///< of each cell, laid out as in the patch; 0 for nodata
    std::vector<std::uint32_t> wide_basin;  ///< instead of `basin` where there are too many for 16 bits
    std::vector<float> level;               ///< of each basin: how high it fills before it reaches `outlet`
    std::vector<std::uint32_t> outlet;      ///< of each basin
    std::vector<float> bottom;              ///< height of the basin's pit, m; infinite if its lowest cell is no pit
    FloodRim rim;
};

/// Solves a tile alone.
TileFlood flood_tile(const Patch<float>& ground);

/// What raising a tile's basins changed.
struct Raised {
    std::int64_t cells = 0;   ///< cells raised
    std::int64_t height = 0;  ///< sum of all rises, in steps of 2^-24 m: whole numbers, so that no order matters
    float deepest_m = 0;      ///< the largest rise
    std::int64_t pits = 0;    ///< pits that were raised; a level bottom counts once for each of its first cells
};

/// Raises a tile's cells to the final levels of their basins.
/// @param flood         its levels are settled on the way, so call this once
/// @param outlet_level  final level of each outlet of the tile, m; minus infinity for outlet 0
/// @param first         the tile's north-west cell; its rows follow every `stride` values
Raised settle_basins(TileFlood& flood, std::span<const float> outlet_level, float* first, std::int64_t stride);

}  // namespace soilhold::terrain
