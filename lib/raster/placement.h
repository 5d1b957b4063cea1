/// Where a grid lies on the map: its north-west corner, its cells, its coordinate system. North is up.
///
/// Map coordinates are x eastward and y northward in the unit of the coordinate system (metres, feet, degrees). Cell
/// coordinates count columns eastward and rows southward from the north-west corner; the centre of the first cell is
/// at (0.5, 0.5).
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "terrain/grid.h"

namespace soilhold::raster {

struct Point {
    double x = 0;
    double y = 0;
    friend bool operator==(const Point&, const Point&) = default;
};

struct Placement {
    double west = 0;         ///< x of the west edge
    double north = 0;        ///< y of the north edge
    double cell_width = 1;   ///< > 0, in the unit of the coordinate system
    double cell_height = 1;  ///< > 0
    std::int64_t columns = 0;
    std::int64_t rows = 0;
    std::string crs;    ///< coordinate system as WKT; empty: not known
    double unit_m = 0;  ///< metres in a unit of the map, for one without a coordinate system; 0: not known

    double east() const { return west + static_cast<double>(columns) * cell_width; }
    double south() const { return north - static_cast<double>(rows) * cell_height; }
    Point to_cell(Point map) const { return {(map.x - west) / cell_width, (north - map.y) / cell_height}; }
    Point to_map(Point cell) const { return {west + cell.x * cell_width, north - cell.y * cell_height}; }
    /// In GDAL's order: x = g0 + g1 column + g2 row, y = g3 + g4 column + g5 row.
    std::array<double, 6> geotransform() const { return {west, cell_width, 0, north, 0, -cell_height}; }
};

/// True where coordinates are longitudes and latitudes.
bool is_geographic(const Placement& placement);

/// Metres in a unit of the map; 0 where it is an angle or not known.
double metres_per_unit(const Placement& placement);

/// "metre", "US survey foot", "degree"; empty without a coordinate system.
std::string unit_name(const Placement& placement);

/// What people call the coordinate system: "WGS 84 / UTM zone 17N"; "no coordinate system" for none.
std::string crs_name(const Placement& placement);

/// Whether the two coordinate systems are one and the same (two empty ones are).
bool same_crs(const Placement& one, const Placement& other);

/// The grid's shape, its cell width the side of a square of equal area, in metres; where the unit is not known or is
/// an angle, in the unit of the map.
terrain::Shape shape_of(const Placement& placement);

/// Longitude (x) and latitude (y) in degrees on WGS 84 of a point on the map.
/// @throws RasterError (code "no-crs", "no-way-there") naming `file` where it can't be known
Point longitude_latitude(const Placement& placement, Point map, const std::string& file);

/// The coordinate system of the UTM zone (6 degrees wide; polar stereographic beyond 84 N and 80 S): "EPSG:32617".
std::string utm_zone(Point longitude_latitude);

/// How much longer a step on the map is than on the ground, eastward (x) and northward (y), at a point: 1.41 for both
/// in web Mercator at 45 degrees. Uses the curvature of the WGS 84 ellipsoid, a = 6378137 m, 1/f = 298.257223563.
/// @throws RasterError as longitude_latitude()
Point stretch(const Placement& placement, Point map, const std::string& file);

}  // namespace soilhold::raster
