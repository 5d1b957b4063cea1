/// A watershed as it was worked: its fields with their places, what was missing, and whose each map is. A plain struct
/// for pages, tables and files.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "raster/placement.h"
#include "raster/polygons.h"
#include "source/citation.h"
#include "source/remark.h"
#include "watershed/fields.h"
#include "watershed/pits.h"

namespace soilhold::watershed {

/// One line of the sources: what, in which file or figure, and whose it is.
struct MapSource {
    std::string what;  ///< "heights", "rain (R)"
    std::string file;  ///< short name; empty for one figure
    source::Origin origin;
};

/// Ground that two fields share.
struct SharedGround {
    std::string one, other;
    double area_ha = 0;
};

struct WatershedResult {
    std::string name;
    std::string file;  ///< the watershed file
    raster::Placement placement;
    double cell_m = 0;
    std::int64_t cells_with_height = 0, channel_cells = 0, barrier_cells = 0;
    PitReport pits;
    std::optional<terrain::CutLimits> cuts;  ///< where pits were cut open
    std::array<std::int64_t, 5> missing{};   ///< cells with a height that lack each factor (factor_names)
    Fields fields;
    std::vector<SharedGround> overlaps;
    std::vector<Practice> offered;
    std::vector<RotationWorked> rotations;  ///< of the file's list, in its order
    Criterion rank_by = Criterion::tons;
    Delivery delivery = Delivery::distance;
    double largest_basin_km2 = 0;  ///< drained by the largest stream, for the relations by area
    std::size_t visits = 20, draws = 1000;
    std::uint64_t seed = 1;
    double channel_ha = 0, longest_m = 0;
    std::vector<MapSource> sources;
    source::Remarks remarks;  ///< of the maps; those of a field are with it
};

}  // namespace soilhold::watershed
