/// The arguments of soilhold terrain, and the command itself.
#pragma once

#include <string>
#include <vector>

#include "options.h"
#include "terrain_factors.h"

namespace CLI {
class App;
}

namespace soilhold::cli {

/// As they were written; what can be left out is empty then.
struct TerrainArguments {
    std::string file, out;
    std::vector<std::string> write;  ///< grids: "slope,area", "loss"; empty: LS, and the loss where there are factors
    FactorWords factors;
    std::string cell, project, crs, cell_unit, height_unit, nodata;
    std::vector<std::string> barriers;
    std::string longest, channel, rills = "moderate", routing = "d8", memory;
    std::string pits = "fill", longest_cut, deepest_cut;
    int threads = 0;
    bool json = false, quiet = false;
};

void terrain_options(CLI::App& command, TerrainArguments& arguments);

/// "--cell", "5", "m" as people write it becomes "--cell", "5 m".
std::vector<std::string> with_units_joined(const std::vector<std::string>& words);

Exit terrain(const TerrainArguments& arguments);

}  // namespace soilhold::cli
