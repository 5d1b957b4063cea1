/// The files that soilhold watershed --out writes: grids, the fields with their results, tables.
#pragma once

#include <string>
#include <vector>

#include "input/watershed_file.h"
#include "raster/field_layer.h"
#include "units/unit.h"
#include "watershed/watershed_work.h"

namespace soilhold::cli {

/// The fields as a layer: those that are ranked by place, then those left out with the reason and, where they have one,
/// their outline.
raster::FieldLayer layer_of(const watershed::WatershedResult& result);

/// What a run will write, settled before its work. NAME stands for what --out says; either may be empty.
struct WatershedTargets {
    std::string name;  ///< NAME-loss.tif, NAME-ls.tif, NAME-classes.tif, NAME.gpkg, NAME.csv and NAME.json
    std::string map;   ///< one file more
    std::vector<std::string> paths() const;
};

/// The first target that is one of the files the ranking is worked from; empty when there is none.
/// @throws report::OutputError where a target is a folder: said before the work, not after it
std::string read_and_written(const WatershedTargets& targets, const input::WatershedFile& file);

/// Whether all targets would be written without a name until they are whole, so that nothing stays of a killed run.
/// @throws raster::WriteError where nothing can be written in a target's folder
bool written_unnamed(const WatershedTargets& targets);

/// All are written and flushed before the first is put in place.
/// @param map_bytes  of targets.map
/// @throws report::OutputError, raster::WriteError
void write_watershed_files(const watershed::WorkedWatershed& worked, const WatershedTargets& targets,
                           units::System system, const std::string& map_bytes);

}  // namespace soilhold::cli
