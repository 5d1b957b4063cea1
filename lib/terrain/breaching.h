/// Breaching: a pit is drained by cutting through what dams it up instead of by filling it.
///
/// A road across a valley, or survey noise in a ditch, dams up water on the map that runs through a culvert, or the
/// ditch, on the ground. Each pit looks for the cheapest cut to lower ground (cut_search.h) on the ground as surveyed,
/// within a longest and a deepest cut; all cuts are applied together, and each cell becomes as low as any cut through
/// it asks. A cut is level with the bottom of its pit: no height is rounded or made up, nothing is taken away that need
/// not be, and flow_directions.h drains level ground. What can't be drained within the limits is left to filling,
/// which must follow.
///
/// Why every pit with a cut drains, though no cut knows of the others: let z be the bottom of a cut. Along it no cell
/// ends up above z, and its end is lower than z or an outlet no higher. So from any of its cells either all that
/// follow are at z up to that end, or one of them was made lower still by another cut, whose bottom is below z, and the
/// argument goes on from there; bottoms only get lower, so it ends. A cell that was not cut keeps its lower neighbour.
/// So no new pit comes to be, and filled ground is nowhere higher than without breaching. A cut may end in a lower pit
/// that has none: both then lie under that pit's filled ground, and the cut was of no use but of no harm.
///
/// Needs: elevations, NaN or infinite for nodata. Changes: the cells of cuts, which get the height of a pit. Nodata:
/// stays; cells beside it are outlets. Border: outlets keep their height. Ties: see cut_search.h; only there can turned
/// ground give another result. Memory: a tile with its surroundings, 5 bytes a cell, for each thread, and 12 bytes for
/// each cell that a cut lowers. The same bits for any tile side, number of threads and order of tiles: a pit belongs to
/// the tile of its first cell, and its surroundings are the same whatever the tile.
/// @source  Lindsay & Dhun (2015), see cut_search.h; Lindsay, J. B. (2016): Efficient hybrid breaching-filling sink
///          removal methods for flow path enforcement in digital elevation models. Hydrological Processes 30 (limits,
///          and filling what is left). From memory. That all cuts are found on the same ground is ours.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "terrain/cut_search.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// A tile and the ground around it.
struct Surroundings {
    Tile tile;
    std::int64_t halo = 0;      ///< cells on each side, cut_halo()
    std::vector<float> height;  ///< row by row, the halo included; nodata beyond the grid

    std::int64_t stride() const { return tile.columns + 2 * halo; }
};

/// Cells that must be known around a tile: those that a cut from its rim can reach, and one more.
/// @throws std::invalid_argument as CutSearch
std::int64_t cut_halo(const CutLimits& limits, double cell_m);

/// The surroundings of a tile.
/// @param rows   whole rows of the grid, all that the tile and its halo have
/// @param first  row of the grid that the first of them is
/// @param whole  the grid
Surroundings surroundings_of(const Grid<float>& rows, std::int64_t first, const Shape& whole, const Tile& tile,
                             std::int64_t halo);

/// A cell that a cut goes through.
struct LoweredCell {
    std::int32_t row = 0;
    std::int32_t column = 0;
    float height_m = 0;  ///< what it becomes
};

/// What the pits of a tile ask for. The cells may lie outside the tile, and more than once in the list.
struct TileCuts {
    std::vector<LoweredCell> cells;
    std::int64_t pits = 0;           ///< with a cut or without
    std::int64_t cuts = 0;           ///< pits that have one
    std::int64_t squared_reach = 0;  ///< of the longest cut, cells
    float deepest_m = 0;
};

/// Solves a tile alone.
/// @throws std::invalid_argument as CutSearch
TileCuts find_cuts(Surroundings ground, const CutLimits& limits, double cell_m);

/// What breaching changed.
struct BreachReport {
    std::int64_t cuts = 0;
    std::int64_t pits_left = 0;  ///< pits without a cut within the limits; lakes wider than these are not counted
    std::int64_t cells_lowered = 0;
    double volume_m3 = 0;  ///< taken away, summed in whole steps of 2^-24 m, so that it depends on no order
    double deepest_m = 0;
    double longest_m = 0;  ///< from the pit to the far end of its cut, straight
};

/// The cuts of all tiles as one list: each cell once, as low as any cut asks; by row, then by column.
struct Cuts {
    std::vector<LoweredCell> cells;
    BreachReport report;  ///< all but the volume
};
Cuts join_cuts(std::vector<TileCuts> tiles, const Shape& whole, int threads = 0);

/// Lowers the cells of a grid, or of the rows that are there: @param first is the row of the grid that its first is.
/// @returns  what it took away, in steps of 2^-24 m of height: add up and give to volume_of
std::int64_t lower_cells(std::span<const LoweredCell> cells, std::int64_t first, Grid<float>& rows);
double volume_of(std::int64_t steps, double cell_m);

/// Breaches in place.
/// @throws std::invalid_argument as CutSearch
BreachReport breach_depressions(Grid<float>& elevation, const CutLimits& limits, const Tiling& tiling = {});

}  // namespace soilhold::terrain
