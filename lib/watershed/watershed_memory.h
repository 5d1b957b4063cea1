/// How much memory a watershed takes, told before the work begins: a map too large for the machine is refused at once,
/// with the cell width that would fit, not killed an hour later.
///
/// What is held at a time is counted grid by grid: heights, ways, drained ground and LS while the slope is worked; LS,
/// ways to a channel and every map the file names while those are brought here; one figure for the whole watershed
/// takes none. Beside it 200 MB for the program, its libraries and the fields.
/// @source  our own count of the grids, held against measured runs
#pragma once

#include <cstdint>

#include "input/watershed_file.h"

namespace soilhold::watershed {

/// The most that is held at a time for each cell.
double bytes_a_cell(const input::WatershedFile& file);

/// @param cells  of the working grid
std::int64_t memory_needed(const input::WatershedFile& file, std::int64_t cells);

/// @param cell_m  width of the working cell
/// @throws raster::RasterError (too-little-memory) naming the heights where it takes more than is allowed
void check_memory(const input::WatershedFile& file, std::int64_t cells, double cell_m, std::int64_t allowed);

}  // namespace soilhold::watershed
