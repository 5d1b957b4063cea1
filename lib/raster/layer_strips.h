/// A raster brought onto a grid strip by strip, never held whole: what values_onto() does, for grids whose strips are
/// worked one after another.
///
/// A raster whose cells are the grid's own, or a larger one's that the grid is cut from, is read as it lies; any other
/// is brought onto the grid once, into a scratch file. Memory: nothing but the strip; 256 MB where it is brought.
#pragma once

#include <memory>
#include <string>

#include "raster/onto.h"
#include "raster/stored_values.h"

namespace soilhold::raster {

class LayerStrips {
  public:
    /// @param times   of each value: a unit
    /// @param folder  for a scratch file
    /// @throws RasterError as values_onto(), WriteError
    LayerStrips(const std::string& path, const Placement& placement, Between how, const OntoOptions& options,
                double times, const std::string& folder);
    ~LayerStrips();
    LayerStrips(LayerStrips&&) noexcept;
    LayerStrips& operator=(LayerStrips&&) noexcept;

    /// Fills a strip of the grid's whole width from `row` on, NaN for none; from north to south, each row once.
    /// @return what was seen of these rows. @throws RasterError
    ValuesSeen read(std::int64_t row, terrain::Grid<float>& to);
    /// What it lacks here, once all has been read. @throws RasterError (not-here) where it has nothing
    source::Remarks lacks() const;

  private:
    struct Open;
    std::unique_ptr<Open> open_;
};

}  // namespace soilhold::raster
