/// Features of a vector file with GDAL, brought into a grid's coordinate system. For the sources of raster/ only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "raster/gdal_session.h"
#include "raster/placement.h"
#include "raster/shares.h"

namespace soilhold::raster {

struct OpenFeatures {
    std::string path;
    Dataset dataset;
    OGRLayerH layer = nullptr;  ///< owned by the dataset
    Transform transform;        ///< into the grid's coordinate system; null where it is the same
    std::vector<std::string> columns;
};

/// @param layer  its name; empty: the only one
/// @throws RasterError: no such file, no features in it (not-features), no such layer or several (which-layer), no
/// coordinate system where the grid has one, or the other way round (no-crs)
OpenFeatures open_features(const std::string& path, const std::string& layer, const Placement& placement);

/// Calls visit(feature, geometry) for each feature in the file's order; the geometry is in the grid's coordinate
/// system with straight lines only, null where the feature has none. `failed` says why it could not be brought there.
/// @throws RasterError where the file is cut short
using Visit = std::function<void(OGRFeatureH feature, Geometry geometry, const std::string& failed)>;
void for_each_feature(const OpenFeatures& open, const Visit& visit);

/// The place of a column, or RasterError (no-such-column) naming those there are.
int column_of(const OpenFeatures& open, const std::string& name);

/// Parts as a geometry, without the lines and points that a repair left over.
Geometry geometry_of(const std::vector<Part>& parts);

}  // namespace soilhold::raster
