/// What soilhold terrain says when it is done: a sentence, a short table, what was done to the file, cautions; or JSON.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "terrain.h"
#include "watershed/slope_map.h"

namespace soilhold::cli {

struct TerrainSaid {
    const TerrainArguments& arguments;
    const watershed::SlopeMapOptions& options;
    const watershed::SlopeMapResult& result;
    const std::vector<std::string>& files;  ///< written
};

std::string terrain_text(const TerrainSaid& said);

/// One object in SI units; `format` changes when a key does (docs/terrain.md).
std::string terrain_json(const TerrainSaid& said);

/// Where the numbers of an output come from, for its metadata: name -> text. Nothing in it depends on the time, the
/// machine or the number of threads.
std::map<std::string, std::string> terrain_lineage(const TerrainArguments& arguments,
                                                   const watershed::SlopeMapOptions& options,
                                                   const std::string& output);

}  // namespace soilhold::cli
