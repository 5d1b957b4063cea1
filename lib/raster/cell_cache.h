/// The cells that GDAL keeps in memory of the files it reads and writes.
#pragma once

#include <cstdint>

namespace soilhold::raster {

/// From now on it keeps at most that many bytes, and no more than it would have.
void keep_cells_within(std::int64_t bytes);

}  // namespace soilhold::raster
