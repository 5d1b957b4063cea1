/// A file of heights on its working grid (elevation.h), in memory or, where it is larger than that, in rows.
///
/// Memory: 4 bytes a cell of what is read at a time, twice that where all of it is brought onto another grid.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "raster/elevation.h"

namespace soilhold::raster {

/// What bringing heights onto another grid takes besides, bytes.
inline constexpr std::int64_t resampling_memory = 256'000'000;

class HeightsFile {
  public:
    /// @throws RasterError  whatever raster::Layer refuses, and: degrees (degrees), no coordinate system (no-crs), an
    /// unknown one (unknown-crs), one that stretches lengths by more than 2 % here (stretched-map), unknown height unit
    /// (no-height-unit), a working cell finer than the file's (cell-too-fine), too many cells (too-many-cells)
    explicit HeightsFile(const std::string& path, const ElevationOptions& options = {});
    ~HeightsFile();
    HeightsFile(const HeightsFile&) = delete;
    HeightsFile& operator=(const HeightsFile&) = delete;

    const Placement& placement() const;
    const terrain::Shape& shape() const;
    /// Whether its cells are made anew, which takes 256 MB besides.
    bool resampled() const;
    /// Heights in metres, NaN for none. @param threads  that read; 0: all. @throws RasterError as finish()
    terrain::Grid<float> all(int threads = 0);
    /// Rows from `row` on; each row once, from north to south.
    /// @param folder  for a scratch file, where the cells are made anew
    void read(std::int64_t row, terrain::Grid<float>& to, const std::string& folder);
    /// What was done, once all heights have been read.
    /// @throws RasterError: no heights at all (no-heights), heights no land has (no-ground-height)
    source::Remarks finish();
    /// Of those that were read.
    std::int64_t cells_with_height() const;

  private:
    struct Opened;
    std::unique_ptr<Opened> opened_;
};

}  // namespace soilhold::raster
