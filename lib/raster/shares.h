/// How much of each cell a polygon covers: its exact area share, from a walk along its edges.
///
/// Each edge is cut at the borders of rows and columns. Within cell (r, c) a piece that runs dy rows southward at mean
/// column x adds dy (1 - (x - c)) to the cell and dy to every cell east of it; summed over all rings the cell's share
/// is left. An outer ring counts +, a hole -, whichever way its points run. Cells inside get 1, cells outside nothing;
/// the sum of shares times the cell's area is the polygon's area, to rounding (1e-9 of it at a city's distance).
/// Needs rings that don't cross themselves or one another (raster/polygons.h sees to it).
/// Cost: proportional to the cells its edges cross; memory likewise.
#pragma once

#include <cstdint>
#include <vector>

#include "raster/placement.h"

namespace soilhold::raster {

using Ring = std::vector<Point>;  ///< closed or not; map coordinates

/// One piece of a polygon: what its outer ring holds, less the holes.
struct Part {
    Ring outer;
    std::vector<Ring> holes;
};

/// Cells side by side in a row with one share.
struct Share {
    std::int64_t row = 0;
    std::int64_t column = 0;
    std::int64_t cells = 1;  ///< more than one where no edge comes between
    double share = 0;        ///< above 0, at most 1
    friend bool operator==(const Share&, const Share&) = default;
};

/// The cells of the grid that the parts cover, by row and column. What lies beyond the grid is left out.
/// Shares below 1e-12 are left out too.
std::vector<Share> area_shares(const std::vector<Part>& parts, const Placement& placement);

/// Area of a ring in square map units, positive. 0 below three points.
double ring_area(const Ring& ring);

/// Outer rings less holes, in square map units.
double area_of(const std::vector<Part>& parts);

}  // namespace soilhold::raster
