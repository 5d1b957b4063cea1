/// GDAL as this room uses it: woken once, its messages caught instead of printed, its handles closed by themselves.
///
/// For the sources of raster/ only: it is the one header here that names GDAL's types.
/// A GDAL dataset must not be used by two threads at a time.
#pragma once

#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <memory>
#include <string>
#include <type_traits>
#include <vector>

namespace soilhold::raster {

/// Registers GDAL's drivers; cheap when it is done already.
void wake_gdal();

/// Catches what GDAL says in this thread for as long as it lives. They nest; the innermost hears.
class Listening {
  public:
    Listening();
    ~Listening();
    Listening(const Listening&) = delete;
    Listening& operator=(const Listening&) = delete;

    bool failed() const { return !failures_.empty(); }
    /// The failures in GDAL's words, or its last warning, or "it gave no reason"; one line, at most 300 letters.
    std::string words() const;
    void hear(bool failure, const std::string& text);

  private:
    std::vector<std::string> failures_;
    std::string warning_;
};

struct CloseDataset {
    void operator()(GDALDatasetH dataset) const;
};
struct FreeReference {
    void operator()(OGRSpatialReferenceH reference) const;
};
struct FreeTransform {
    void operator()(OGRCoordinateTransformationH transform) const;
};
struct FreeGeometry {
    void operator()(OGRGeometryH geometry) const;
};
using Dataset = std::unique_ptr<std::remove_pointer_t<GDALDatasetH>, CloseDataset>;
using Reference = std::unique_ptr<std::remove_pointer_t<OGRSpatialReferenceH>, FreeReference>;
using Transform = std::unique_ptr<std::remove_pointer_t<OGRCoordinateTransformationH>, FreeTransform>;
using Geometry = std::unique_ptr<std::remove_pointer_t<OGRGeometryH>, FreeGeometry>;

/// A coordinate system from WKT, EPSG:code or anything GDAL reads, with x eastward and y northward whatever its
/// authority says; empty when there is none or it can't be read.
Reference reference_of(const std::string& text);

/// As WKT 2; empty for none.
std::string wkt_of(OGRSpatialReferenceH reference);

/// A sentence's worth of a unit's or system's name: never null.
std::string text_or_empty(const char* text);

}  // namespace soilhold::raster
