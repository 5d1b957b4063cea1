/// The maps that a watershed file names, brought onto the grid of the heights: R, soils, C and P.
///
/// Cells get R between the four values around, classes by the nearest cell, C and P by the mean of what they cover,
/// and the soil that covers most of them. What a map lacks here stays a gap and is said with its area.
#pragma once

#include "input/watershed_file.h"
#include "raster/placement.h"
#include "watershed/loss_map.h"

namespace soilhold::watershed {

/// @param LS  of the cells of `placement`, NaN for none
/// @throws raster::RasterError where a map can't be used
Layers read_layers(const input::WatershedFile& file, const raster::Placement& placement, terrain::Grid<float> LS);

}  // namespace soilhold::watershed
