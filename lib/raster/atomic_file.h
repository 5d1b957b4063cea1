/// Writing rasters so that they appear whole or not at all.
///
/// A file has no name until it is whole (raster/unnamed_file.h). GeoTIFF in tiles of 256, packed with ZSTD; statistics
/// are worked out on the way; a cloud-optimized file is written twice, the second time in the order that is read. A
/// grid larger than memory is written tile by tile with a TileWriter; what is whole goes to the disk while the rest is
/// still worked.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "raster/placement.h"
#include "raster/unnamed_file.h"
#include "terrain/grid.h"

namespace soilhold::raster {

using Colour = std::array<std::uint8_t, 4>;  ///< red, green, blue, opacity

struct WriteOptions {
    int zstd_level = 1;  ///< 1 (fast) to 22 (small)
    /// What is packed of reals: 1 the numbers themselves, fastest where neighbours differ in most of their digits; 2
    /// their differences, much smaller for heights in steps of a centimetre; 3 differences byte by byte, a little
    /// smaller.
    int predictor = 3;
    int threads = 1;                              ///< that pack; the same bytes for any number
    bool cloud_optimized = false;                 ///< with overviews, laid out for reading over a network
    std::string unit;                             ///< "m", "t/(ha*yr)"; empty: none
    std::string description;                      ///< of the band
    std::map<std::string, std::string> metadata;  ///< lineage: name -> text
    std::optional<int> no_class;                  ///< of a grid of bytes: the class that means "no value"
    std::vector<Colour> colours;                  ///< of a grid of bytes: the colour of class 0, 1, ...
};

/// Whether a file in this path's folder would be written without a name until it is whole.
/// @throws WriteError where nothing can be written there
bool written_unnamed(const std::string& path);

/// Reals as Float32, NaN the nodata value. @throws WriteError; std::invalid_argument where the grid and its placement
/// differ in size
void write_values(const std::string& path, const terrain::Grid<float>& grid, const Placement& placement,
                  const WriteOptions& options = {});

/// Classes 0 to 255 as Byte. @throws as write_values()
void write_classes(const std::string& path, const terrain::Grid<std::uint8_t>& grid, const Placement& placement,
                   const WriteOptions& options = {});

/// The same for a grid that does not fit in memory. Cells that are never put are nodata; a cell is put once.
/// Not for two threads at a time.
class TileWriter {
  public:
    enum class Kind { values, classes };
    static constexpr std::int64_t side = 256;  ///< tiles at multiples of it are written without rereading

    /// @throws WriteError
    TileWriter(const std::string& path, const Placement& placement, Kind kind, const WriteOptions& options = {});
    /// Without finish() nothing is left behind.
    ~TileWriter();
    TileWriter(const TileWriter&) = delete;
    TileWriter& operator=(const TileWriter&) = delete;

    /// Puts a rectangle with its north-west cell at (row, column). @throws WriteError; std::invalid_argument where it
    /// reaches beyond the grid or is of the other kind
    void put(std::int64_t row, std::int64_t column, const terrain::Grid<float>& tile);
    void put(std::int64_t row, std::int64_t column, const terrain::Grid<std::uint8_t>& tile);
    /// All of a grid.
    void put_all(const terrain::Grid<float>& grid);
    void put_all(const terrain::Grid<std::uint8_t>& grid);
    /// Flushes to the disk, not yet in place: for several files, all are flushed before the first is finished.
    /// @throws WriteError
    void flush();
    /// Flushes, if it was not done, and puts it in place. @throws WriteError
    void finish();

  private:
    struct Pending;
    std::unique_ptr<Pending> pending_;
};

}  // namespace soilhold::raster
