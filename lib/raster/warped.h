/// Resampling one band onto another grid with GDAL's warper, in memory or in a scratch file. For the sources of raster/
/// only.
#pragma once

#include <optional>
#include <string>

#include "raster/layer.h"
#include "raster/open_raster.h"
#include "raster/placement.h"
#include "raster/scratch_file.h"

namespace soilhold::raster {

/// How a cell gets its value from the cells it covers.
enum class Resampling {
    nearest,   ///< the cell at its centre: for classes
    bilinear,  ///< between the four around its centre: for values on a grid of about the same width
    average,   ///< the mean of all it covers, by area: for values on a wider grid
};

/// What the file says or the user says in its stead.
struct Source {
    std::string path;
    const OpenRaster* open = nullptr;
    int band = 1;
    std::string crs;               ///< as WKT; empty: none
    std::optional<double> nodata;  ///< instead of the file's
};

/// The square grid that holds the band in another coordinate system, its cells about as wide.
/// @throws RasterError (unreadable-raster, no-way-there)
Placement suggested_grid(const Source& source, const std::string& crs);

/// The band on the grid, scale and offset applied, NaN for none. @throws RasterError
terrain::Grid<float> warped_values(const Source& source, const Placement& onto, Resampling how);

/// The same for a grid larger than memory: it is brought there once, into a scratch file, and read in rows. The bits
/// are those of warped_values(): GDAL cuts the work by its own 256 MB, whatever it writes to, as long as a block is a
/// row.
class WarpedRows {
  public:
    /// @throws RasterError, WriteError
    WarpedRows(const Source& source, const Placement& onto, Resampling how, const std::string& folder);
    void read(std::int64_t row, terrain::Grid<float>& to) const;

  private:
    Source source_;
    ScratchFile file_;
    Dataset made_;
};

/// Classes by nearest cell, no_class for none. Memory: 12 bytes a cell on the way.
/// @throws RasterError (not-classes) where a value is no whole number of 32 bits
terrain::Grid<std::int32_t> warped_classes(const Source& source, const Placement& onto);

}  // namespace soilhold::raster
