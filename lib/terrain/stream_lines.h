/// Streams as lines for a map: where more ground than a threshold drains through, from each head down to where it
/// meets another or leaves the grid.
///
/// The ground is filled, each cell's water goes to one neighbour (D8), the cells from the threshold on are joined along
/// their directions. Every such cell is on exactly one line but as the end of others. For drawing: a ground thinned to
/// paper resolution (hillshade.h) is enough.
/// Nodata: no line enters it. Memory: 15 bytes a cell.
#pragma once

#include <vector>

#include "terrain/grid.h"

namespace soilhold::terrain {

/// In cell coordinates: columns eastward, rows southward, the middle of the first cell at (0.5, 0.5).
struct CellPoint {
    double column = 0, row = 0;
};

/// The line of most cells first. @param from_m2  drained ground from which a cell is a stream, > 0
std::vector<std::vector<CellPoint>> stream_lines(const Grid<float>& ground, double from_m2);

}  // namespace soilhold::terrain
