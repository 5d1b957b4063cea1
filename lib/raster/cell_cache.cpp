#include "raster/cell_cache.h"

#include <algorithm>

#include "raster/gdal_session.h"

namespace soilhold::raster {

void keep_cells_within(std::int64_t bytes) {
    wake_gdal();
    GDALSetCacheMax64(std::min<GIntBig>(GDALGetCacheMax64(), bytes));
}

}  // namespace soilhold::raster
