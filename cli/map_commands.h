/// The commands that work on maps. They live in a program of their own, soilhold-maps, beside soilhold: loading GDAL
/// takes a tenth of a second, which the others need not wait for.
#pragma once

#include <array>

#include "options.h"

namespace soilhold::cli {

struct MapCommand {
    const char* name;
    const char* says;
};

inline constexpr std::array<MapCommand, 2> map_commands{{
    {"terrain", "the slope factor LS of each cell of a raster of heights"},
    {"watershed", "which fields of a watershed to visit first"},
}};

/// Becomes soilhold-maps with the same arguments; returns only where that fails, having said why.
Exit hand_over_to_maps(char** argv);

}  // namespace soilhold::cli
