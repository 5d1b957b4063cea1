/// How a map larger than the memory it may take is cut: large enough tiles that their rims fit, small enough ones that
/// a row of them does.
///
/// Every cut gives the same bits. What a cut takes is reckoned from the number of cells, on rims, in rows of tiles and
/// in strips; the constants are measured (docs/terrain.md).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "raster/heights_file.h"
#include "watershed/slope_map.h"

namespace soilhold::watershed {

struct DiskPlan {
    std::int64_t side = 256;   ///< of tiles: a divisor or a multiple of 256
    std::int64_t rows = 256;   ///< summed at a time: a multiple of 256 and of the side
    std::size_t strips = 4;    ///< finished at a time
    std::int64_t memory = 0;   ///< bytes that it takes at most
    std::int64_t scratch = 0;  ///< bytes on the disk, about
};

/// Bytes that a map takes in memory.
std::int64_t memory_of_all(const raster::HeightsFile& file, const SlopeMapOptions& options, const MapTakers& takers);

/// @throws raster::RasterError: the memory allowed is too little for any cut (too-little-memory)
DiskPlan plan_from_disk(const raster::HeightsFile& file, const std::string& path, const SlopeMapOptions& options,
                        const MapTakers& takers);

/// "1.3 GB", rounded up.
std::string bytes_in_words(std::int64_t bytes);

}  // namespace soilhold::watershed
