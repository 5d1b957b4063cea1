/// A worked watershed as its map: its fields in the order of their ranking, its hills and streams at paper resolution.
#pragma once

#include "report/watershed_map.h"
#include "terrain/grid.h"
#include "watershed/watershed_result.h"

namespace soilhold::report {

/// Heights thinned and lit from the north-west, and the streams that drain more than a hundredth of the map's ground.
/// @param height_m  on the grid of result.placement, NaN for none
/// @throws std::invalid_argument where the grid is of another shape
WatershedMap map_of(const watershed::WatershedResult& result, const terrain::Grid<float>& height_m);

}  // namespace soilhold::report
