/// Bringing other layers onto a grid: rasters of any coordinate system and cell width, and the areas and lines of a
/// vector file.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "raster/layer.h"
#include "raster/placement.h"
#include "source/remark.h"
#include "terrain/grid.h"

namespace soilhold::raster {

/// How a cell gets its value from the cells of the other raster.
enum class Between {
    bilinear,  ///< between the four around its centre: for cells about as wide
    average,   ///< the mean of all it covers, by area: for a raster with finer cells
};

struct OntoOptions {
    int band = 1;
    std::string crs;               ///< what the file should have said ("EPSG:32617"); empty: as it says
    std::optional<double> nodata;  ///< as stored, where the file forgot to say it
};

struct Values {
    terrain::Grid<float> grid;  ///< NaN for none
    source::Remarks remarks;
};

struct Classes {
    terrain::Grid<std::int32_t> grid;  ///< no_class for none
    source::Remarks remarks;
};

/// Values in the file's own unit. @throws RasterError: what raster::Layer refuses; no coordinate system in one of the
/// two (no-crs); no cell in common (not-here)
Values values_onto(const std::string& path, const Placement& placement, Between how, const OntoOptions& options = {});

/// Classes by the nearest cell. @throws as values_onto(), and where the file holds no classes (not-classes)
Classes classes_onto(const std::string& path, const Placement& placement, const OntoOptions& options = {});

struct BurnOptions {
    std::string layer;      ///< empty: the only one
    std::string id_column;  ///< whole numbers; empty: every feature gets 1
    bool numbered = false;  ///< without such a column: features get 1, 2, 3 ... as they stand in the file
    /// Every cell that is touched, not only those whose centre is inside: for barriers, which water must not slip
    /// through. Where features meet in a cell the later one stands.
    bool all_touched = false;
    bool edges = false;  ///< of areas only their edges are drawn, not the ground inside
};

/// The ids of the features of a vector file, no_class elsewhere. @throws RasterError: the file can't be read, no such
/// column (no-such-column), an id that is no whole number (not-classes), no feature here (not-here)
Classes burn_onto(const std::string& path, const Placement& placement, const BurnOptions& options = {});

/// The same cells for a grid larger than memory, `rows` rows at a time from north to south. Memory: those rows, 4 bytes
/// a cell, and 64 MB while they are drawn.
/// @param folder  for a scratch file
/// @throws RasterError as burn_onto(), WriteError, and what take() throws
using TakeClasses = std::function<void(std::int64_t row, const terrain::Grid<std::int32_t>& ids)>;
source::Remarks burn_in_rows(const std::string& path, const Placement& placement, const BurnOptions& options,
                             const std::string& folder, std::int64_t rows, const TakeClasses& take);

}  // namespace soilhold::raster
