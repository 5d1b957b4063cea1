/// The watershed's map on one sheet: which fields carry the tons, where they lie, and whom the doubt does not tell
/// apart. A sentence, the map, the first ten fields, the cautions.
///
/// Layout only: it takes figures that are worked out already. The map stands at a round scale that a ruler confirms;
/// the sheet stands upright or lies across, the list beside the map or below it, whichever makes the map largest.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/page.h"
#include "report/scene.h"
#include "terrain/grid.h"

namespace soilhold::report {

/// Metres east (x) and north (y) of the map's south-west corner.
using GroundPoint = Point;

struct MapField {
    std::vector<std::vector<GroundPoint>> rings;  ///< outer ones and holes; must not cross
    std::size_t rank = 0;                         ///< from 1
    std::string name;
    std::optional<double> loss;     ///< t/(ha yr); none where a figure is missing
    std::optional<double> times_T;  ///< loss over T
    std::size_t tie_group = 0;      ///< fields of one group next to each other in the list are bracketed; 0: in none
    double chance_in_top = 0;       ///< 0..1, of being among the first `visits`
};

struct WatershedMap {
    std::string watershed;  ///< its name
    std::string sentence;   ///< the title: "The top fifth of the fields carry 58 % of the tons."
    double width_m = 0, height_m = 0;
    terrain::Grid<float> light;  ///< hillshade 0..1 over the whole map (terrain/hillshade.h); without cells: none
    std::vector<MapField> fields;
    std::vector<std::vector<GroundPoint>> streams;
    std::size_t visits = 20;
    std::string ranked_by = "tons";     ///< "Ranked by tons."
    std::vector<std::string> cautions;  ///< this watershed's own; those of the trade are always there
    std::string sources, local_office, prepared_by;
};

/// Metres on the ground in a point on paper, for a map at 1 : `scale`.
double metres_per_point(double scale);

/// @throws std::invalid_argument for a map without extent; std::length_error where the words leave no room for a map
Scene watershed_map_scene(const WatershedMap& map, const PageSettings& settings, const Measure& measure);

}  // namespace soilhold::report
