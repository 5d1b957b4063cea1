/// Fields as polygons of a vector file: their names, columns and rings in the coordinate system of a grid, and all that
/// was wrong with them.
///
/// No feature vanishes: each is among the polygons or among those left out, with the reason. Rings that cross
/// themselves are repaired and said to be. Areas are those of the map.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <variant>
#include <vector>

#include "raster/placement.h"
#include "raster/shares.h"
#include "source/remark.h"

namespace soilhold::raster {

using Attribute = std::variant<std::string, std::int64_t, double>;

struct Polygon {
    std::int64_t id = 0;                          ///< the file's own number of the feature
    std::string name;                             ///< from its name column; "feature 7" without one
    std::map<std::string, Attribute> attributes;  ///< by column; columns without a value are absent
    std::vector<Part> parts;                      ///< valid rings in map coordinates
    double area_m2 = 0;
    double share_inside = 1;  ///< of its area that lies on the grid
    source::Remarks remarks;  ///< polygon-repaired, sliver, partly-outside, duplicate-name
};

struct LeftOut {
    std::int64_t id = 0;
    std::string name;
    std::string why;               ///< a sentence
    std::vector<Part> parts = {};  ///< its outline where it has one; may cross itself
};

struct Overlap {
    std::size_t one = 0;  ///< in polygons
    std::size_t other = 0;
    double area_m2 = 0;
};

struct PolygonOptions {
    std::string layer;        ///< empty: the only one
    std::string name_column;  ///< empty: a column called "name" in any case, or none
    double sliver_m = 1;      ///< narrower than this on average (twice its area over its outline): said
    bool compare = true;      ///< look for overlaps and names that stand twice; not for map units of a soil survey
};

struct Polygons {
    std::vector<Polygon> polygons;  ///< in the file's order
    std::vector<LeftOut> left_out;  ///< no geometry, no area, not a polygon, wholly outside the grid
    std::vector<Overlap> overlaps;  ///< pairs that share more than 0.01 m²
};

/// @throws RasterError: the file can't be read, or not one polygon in it can be used (no-polygons);
/// std::invalid_argument for a grid in degrees or of unknown unit, on which there are no areas
Polygons read_polygons(const std::string& path, const Placement& placement, const PolygonOptions& options = {});

}  // namespace soilhold::raster
