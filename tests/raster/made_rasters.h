/// Small rasters and vector files for the tests, made with GDAL itself. No place on earth that matters.
#pragma once

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_string.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <optional>
#include <string>
#include <vector>

namespace soilhold::raster {

struct Made {
    int columns = 0;
    std::vector<double> values = {};  ///< row by row from the first stored
    std::string crs = "EPSG:32617";
    double west = 500000, north = 4400000, width = 10, height = -10;
    double turn = 0;
    bool place = true;
    GDALDataType type = GDT_Float32;
    std::optional<double> nodata = {};
    std::optional<double> scale = {}, offset = {};
    std::string unit = {};
    std::string driver = "GTiff";
    std::vector<std::string> creation = {};
};

inline std::string make_raster(const std::string& path, const Made& made) {
    GDALAllRegister();
    char** creation = nullptr;
    for (const std::string& option : made.creation) creation = CSLAddString(creation, option.c_str());
    const int rows = static_cast<int>(made.values.size()) / made.columns;
    GDALDatasetH dataset =
        GDALCreate(GDALGetDriverByName(made.driver.c_str()), path.c_str(), made.columns, rows, 1, made.type, creation);
    CSLDestroy(creation);
    double g[6] = {made.west, made.width, made.turn, made.north, made.turn, made.height};
    if (made.place) GDALSetGeoTransform(dataset, g);
    if (!made.crs.empty()) {
        OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
        if (OSRSetFromUserInput(crs, made.crs.c_str()) != OGRERR_NONE) std::abort();
        GDALSetSpatialRef(dataset, crs);
        OSRDestroySpatialReference(crs);
    }
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    if (made.nodata) GDALSetRasterNoDataValue(band, *made.nodata);
    if (made.scale) GDALSetRasterScale(band, *made.scale);
    if (made.offset) GDALSetRasterOffset(band, *made.offset);
    if (!made.unit.empty()) GDALSetRasterUnitType(band, made.unit.c_str());
    std::vector<double> values = made.values;
    if (GDALRasterIO(band, GF_Write, 0, 0, made.columns, rows, values.data(), made.columns, rows, GDT_Float64, 0, 0) !=
        CE_None)
        std::abort();
    GDALClose(dataset);
    return path;
}

struct MadeFeature {
    std::string wkt;  ///< empty: none
    std::string name = {};
    std::optional<int> id = {};
};

/// A GeoPackage with one layer "fields" and the columns name and id.
inline std::string make_features(const std::string& path, const std::vector<MadeFeature>& features,
                                 const std::string& crs = "EPSG:32617") {
    GDALAllRegister();
    GDALDatasetH dataset = GDALCreate(GDALGetDriverByName("GPKG"), path.c_str(), 0, 0, 0, GDT_Unknown, nullptr);
    OGRSpatialReferenceH reference = nullptr;
    if (!crs.empty()) {
        reference = OSRNewSpatialReference(nullptr);
        if (OSRSetFromUserInput(reference, crs.c_str()) != OGRERR_NONE) std::abort();
        OSRSetAxisMappingStrategy(reference, OAMS_TRADITIONAL_GIS_ORDER);
    }
    OGRLayerH layer = GDALDatasetCreateLayer(dataset, "fields", reference, wkbUnknown, nullptr);
    OGRFieldDefnH name = OGR_Fld_Create("name", OFTString), id = OGR_Fld_Create("id", OFTInteger);
    OGR_L_CreateField(layer, name, 1);
    OGR_L_CreateField(layer, id, 1);
    OGR_Fld_Destroy(name);
    OGR_Fld_Destroy(id);
    for (const MadeFeature& made : features) {
        OGRFeatureH feature = OGR_F_Create(OGR_L_GetLayerDefn(layer));
        if (!made.name.empty()) OGR_F_SetFieldString(feature, 0, made.name.c_str());
        if (made.id) OGR_F_SetFieldInteger(feature, 1, *made.id);
        if (!made.wkt.empty()) {
            std::string text = made.wkt;
            char* at = text.data();
            OGRGeometryH geometry = nullptr;
            if (OGR_G_CreateFromWkt(&at, nullptr, &geometry) != OGRERR_NONE) std::abort();
            OGR_F_SetGeometryDirectly(feature, geometry);
        }
        if (OGR_L_CreateFeature(layer, feature) != OGRERR_NONE) std::abort();
        OGR_F_Destroy(feature);
    }
    if (reference) OSRDestroySpatialReference(reference);
    GDALClose(dataset);
    return path;
}

}  // namespace soilhold::raster
