/// The made land: a valley that falls eastward with a winding stream in it, ridges on both sides, side valleys between
/// them, small unevenness on all.
#pragma once

#include <cstdint>

#include "raster/placement.h"
#include "terrain/grid.h"

namespace soilhold::made {

/// 1600 x 1250 cells of 10 m: 16 km from west to east, 12.5 km from south to north.
raster::Placement placement();

/// y of the stream in metres north of the south edge, x metres east of the west edge.
double stream_north(std::uint64_t seed, double east);

/// Metres above the sea.
double height(std::uint64_t seed, double east, double north);

/// At the middle of each cell, to the centimetre.
terrain::Grid<float> heights(std::uint64_t seed);

}  // namespace soilhold::made
