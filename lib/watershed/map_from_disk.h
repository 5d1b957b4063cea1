/// The slope factor LS of a raster of heights that is larger than the memory it may take: what slope_map.h does, in
/// strips, with what must be kept in scratch files that have no name (raster/scratch_file.h).
///
/// Four times from north to south: heights are read, kept in metres and each tile is flooded alone; tiles are filled
/// and directed; each tile is summed alone; strips are summed with what arrives from others and finished
/// (map_strips.h). In between the rims of all tiles are joined in memory.
///
/// Needs, nodata, border and ties: slope_map.h, of which it has the bits, however it is cut. Memory: as planned
/// (disk_plan.h). Scratch: 7 bytes a cell and about 12 a basin, 4 more where filled heights are asked for or water
/// spreads, 1 more where it spreads, 1 more with barriers; 16 for each cell of a flat that reaches over a tile's rim.
#pragma once

#include <functional>
#include <string>

#include "raster/heights_file.h"
#include "watershed/disk_plan.h"
#include "watershed/slope_map.h"

namespace soilhold::watershed {

/// @throws as slope_map(), and raster::WriteError where scratch files find no room
SlopeMapResult slope_map_from_disk(raster::HeightsFile& file, const std::string& path, const SlopeMapOptions& options,
                                   const MapTakers& takers, const DiskPlan& plan,
                                   const std::function<bool(double)>& progress = {});

}  // namespace soilhold::watershed
