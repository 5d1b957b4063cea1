/// The files that soilhold watershed --out writes: grids, the fields with their results, tables.
#pragma once

#include <string>
#include <vector>

#include "raster/field_layer.h"
#include "units/unit.h"
#include "watershed/watershed_work.h"

namespace soilhold::cli {

/// The fields as a layer: those that are ranked by place, then those left out with the reason and, where they have one,
/// their outline.
raster::FieldLayer layer_of(const watershed::WatershedResult& result);

/// NAME-loss.tif, NAME-ls.tif, NAME-classes.tif, NAME.gpkg, NAME.csv and NAME.json: all are written beside their
/// targets before the first is put in place.
/// @return their paths
/// @throws report::OutputError, raster::WriteError
std::vector<std::string> write_watershed_files(const watershed::WorkedWatershed& worked, const std::string& name,
                                               units::System system);

}  // namespace soilhold::cli
