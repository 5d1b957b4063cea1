/// Depressions: ground that can't drain is raised until it can, and not a hair further.
///
/// The filled height of a cell is the lowest height h such that some way of 8-neighbours from it to an outlet has no
/// cell above h. Outlets are the border of the grid and every cell beside a nodata cell: water leaves there, so a hole
/// in the data drains and is never dammed up. Filled lakes are level; flow_directions.h drains them.
///
/// Needs: elevations, NaN for nodata (infinite counts as nodata too). Changes: cells below their spill, which get the
/// spill's height (a height that stands in the grid, so nothing is rounded). Nodata: stays NaN. Border: outlets keep
/// their height. Ties: none in the result. Memory: 2 bytes a cell beside the elevations, and about 10 bytes a basin.
/// The same bits for any tile side and number of threads, and as one priority flood of the whole grid.
/// What may be cut open instead is cut before: breaching.h.
/// @source  Barnes, R., Lehman, C., Mulla, D. (2014): Priority-flood: an optimal depression-filling and watershed-
///          labeling algorithm for digital elevation models. Computers & Geosciences 62 (what filled means);
///          Barnes (2016), Cordonnier, Bovy & Braun (2019) for the way it is worked: see spill_graph.h. From memory.
#pragma once

#include <cstdint>
#include <vector>

#include "terrain/grid.h"
#include "terrain/tile_flood.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// What filling changed.
struct FillReport {
    std::int64_t cells_raised = 0;
    double volume_m3 = 0;   ///< summed in whole steps of 2^-24 m, so that it depends on no order
    double deepest_m = 0;   ///< the largest rise of a cell
    std::int64_t pits = 0;  ///< pits that were raised; a level bottom may count more than once
};

/// What raising all tiles changed.
FillReport report_of(const std::vector<Raised>& tiles, double cell_m);

/// Fills in place.
FillReport fill_depressions(Grid<float>& elevation, const Tiling& tiling = {});

/// Joins the rims of all tiles and gives each tile the final levels of its outlets.
/// @param rims  one for each tile of the cut, in its order
std::vector<std::vector<float>> join_rims(const TileCut& cut, const std::vector<const FloodRim*>& rims);

}  // namespace soilhold::terrain
