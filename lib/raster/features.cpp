#include "raster/features.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>

#include "raster/raster_error.h"

namespace soilhold::raster {

namespace {

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
    return text;
}

OGRLayerH find_layer(const std::string& path, GDALDatasetH dataset, const std::string& wanted) {
    std::vector<std::string> names;
    for (int i = 0; i < GDALDatasetGetLayerCount(dataset); ++i) {
        OGRLayerH layer = GDALDatasetGetLayer(dataset, i);
        names.push_back(text_or_empty(OGR_L_GetName(layer)));
        if (names.back() == wanted) return layer;
    }
    if (names.empty()) throw RasterError(path, "not-features", "there are no points, lines or polygons in it.");
    if (!wanted.empty())
        throw RasterError(path, "which-layer", fmt::format("it has no layer '{}'; it has: {}.", wanted, listed(names)));
    if (names.size() > 1)
        throw RasterError(path, "which-layer",
                          fmt::format("it has several layers: {}. Say which is meant.", listed(names)));
    return GDALDatasetGetLayer(dataset, 0);
}

}  // namespace

OpenFeatures open_features(const std::string& path, const std::string& layer, const Placement& placement) {
    wake_gdal();
    const Listening listening;
    OpenFeatures open;
    open.path = path;
    open.dataset.reset(
        GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR, nullptr, nullptr, nullptr));
    if (!open.dataset) {
        struct stat facts {};
        if (path.rfind("/vsi", 0) != 0 && path.find(':') == std::string::npos && ::stat(path.c_str(), &facts) != 0)
            throw RasterError(path, "no-such-file", "there is no such file. Is the name spelt right?");
        throw RasterError(path, "not-features",
                          fmt::format("no points, lines or polygons can be read from it (GDAL: {}). A GeoPackage, "
                                      "Shapefile or GeoJSON is wanted here.",
                                      listening.words()));
    }
    open.layer = find_layer(path, open.dataset.get(), layer);
    OGRFeatureDefnH columns = OGR_L_GetLayerDefn(open.layer);
    for (int i = 0; i < OGR_FD_GetFieldCount(columns); ++i)
        open.columns.push_back(text_or_empty(OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(columns, i))));
    OGRSpatialReferenceH own = OGR_L_GetSpatialRef(open.layer);
    const Reference target = reference_of(placement.crs);
    if (!own != !target)
        throw RasterError(path, "no-crs",
                          own ? "it has a coordinate system, and the raster it is laid on has none. Give the raster "
                                "its own: --crs, or 'crs' of 'elevation' in a watershed file."
                              : "it has no coordinate system, so that its place on the raster is not known. Save it "
                                "with one; a Shapefile has it in a .prj file beside it.");
    if (!own) return open;
    const Reference from(OSRClone(own));
    OSRSetAxisMappingStrategy(from.get(), OAMS_TRADITIONAL_GIS_ORDER);
    if (OSRIsSame(from.get(), target.get()) != 0) return open;
    open.transform.reset(OCTNewCoordinateTransformation(from.get(), target.get()));
    if (!open.transform)
        throw RasterError(
            path, "no-way-there",
            fmt::format("it can't be brought into '{}' (GDAL: {}).", crs_name(placement), listening.words()));
    return open;
}

void for_each_feature(const OpenFeatures& open, const Visit& visit) {
    const Listening listening;
    OGR_L_ResetReading(open.layer);
    while (OGRFeatureH feature = OGR_L_GetNextFeature(open.layer)) {
        struct Destroy {
            OGRFeatureH feature;
            ~Destroy() { OGR_F_Destroy(feature); }
        } const destroy{feature};
        Geometry geometry;
        std::string failed;
        if (OGRGeometryH own = OGR_F_GetGeometryRef(feature)) {
            const Listening quiet;
            geometry.reset(OGR_G_GetLinearGeometry(own, 0, nullptr));
            if (geometry) OGR_G_FlattenTo2D(geometry.get());
            if (geometry && open.transform && OGR_G_Transform(geometry.get(), open.transform.get()) != OGRERR_NONE) {
                failed = quiet.words();
                geometry.reset();
            }
        }
        visit(feature, std::move(geometry), failed);
    }
    if (listening.failed())
        throw RasterError(
            open.path, "not-features",
            fmt::format("it can't be read whole (GDAL: {}). Was its download cut short?", listening.words()));
}

int column_of(const OpenFeatures& open, const std::string& name) {
    const auto found = std::ranges::find(open.columns, name);
    if (found == open.columns.end())
        throw RasterError(open.path, "no-such-column",
                          open.columns.empty()
                              ? fmt::format("it has no column '{}', nor any other.", name)
                              : fmt::format("it has no column '{}'; it has: {}.", name, listed(open.columns)));
    return static_cast<int>(found - open.columns.begin());
}

Geometry geometry_of(const std::vector<Part>& parts) {
    Geometry all(OGR_G_CreateGeometry(wkbMultiPolygon));
    const auto add_ring = [](OGRGeometryH polygon, const Ring& ring) {
        OGRGeometryH line = OGR_G_CreateGeometry(wkbLinearRing);
        for (const Point& point : ring) OGR_G_AddPoint_2D(line, point.x, point.y);
        OGR_G_CloseRings(line);
        OGR_G_AddGeometryDirectly(polygon, line);
    };
    for (const Part& part : parts) {
        OGRGeometryH polygon = OGR_G_CreateGeometry(wkbPolygon);
        add_ring(polygon, part.outer);
        for (const Ring& hole : part.holes) add_ring(polygon, hole);
        OGR_G_AddGeometryDirectly(all.get(), polygon);
    }
    return all;
}

}  // namespace soilhold::raster
