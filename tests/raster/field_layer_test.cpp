/// Fields as a GeoPackage: values and outlines read back by GDAL itself, a style beside them, whole or nothing.
#include "raster/field_layer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <ogr_api.h>

#include <filesystem>

#include "program.h"
#include "raster/made_rasters.h"

namespace soilhold::raster {
namespace {

using testing::HasSubstr;

struct MadeLayer {
    std::vector<Part> parts = {{{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, {{{10, 10}, {20, 10}, {20, 20}}}},
                               {{{200, 0}, {210, 0}, {210, 10}}, {}}};
    FieldLayer layer;
    Placement placement{.west = 0, .north = 0, .columns = 1, .rows = 1, .crs = "EPSG:32617"};
    MadeLayer() {
        layer.name = "fields";
        layer.columns = {{FieldColumn::Kind::text, "name"},
                         {FieldColumn::Kind::whole, "place"},
                         {FieldColumn::Kind::real, "times_T"}};
        layer.rows = {{&parts, {"North & \"South\"", std::int64_t{1}, 2.5}},
                      {nullptr, {"gone", std::nullopt, std::nullopt}}};
        layer.graduated = Graduated{"times_T", "loss over T", {1, 2}, {{0, 1, 2, 255}, {3, 4, 5, 255}, {6, 7, 8, 255}}};
    }
};

TEST(FieldLayer, ValuesAndOutlinesAreReadBack) {
    const program::Folder folder;
    const MadeLayer made;
    const std::string path = folder.path + "/out.gpkg";
    PendingFieldLayer pending(path, made.placement, made.layer);
    EXPECT_FALSE(std::filesystem::exists(path));
    pending.finish();
    GDALDatasetH dataset = GDALOpenEx(path.c_str(), GDAL_OF_VECTOR, nullptr, nullptr, nullptr);
    ASSERT_NE(dataset, nullptr);
    OGRLayerH layer = GDALDatasetGetLayerByName(dataset, "fields");
    ASSERT_EQ(OGR_L_GetFeatureCount(layer, 1), 2);
    OGRFeatureH one = OGR_L_GetNextFeature(layer);
    EXPECT_STREQ(OGR_F_GetFieldAsString(one, 0), "North & \"South\"");
    EXPECT_EQ(OGR_F_GetFieldAsInteger(one, 1), 1);
    EXPECT_EQ(OGR_F_GetFieldAsDouble(one, 2), 2.5);
    // 100 x 100, less a triangle of 50, and one of 50 more
    EXPECT_NEAR(OGR_G_Area(OGR_F_GetGeometryRef(one)), 10000, 1e-9);
    EXPECT_STREQ(OSRGetAuthorityCode(OGR_L_GetSpatialRef(layer), nullptr), "32617");
    OGR_F_Destroy(one);
    OGRFeatureH two = OGR_L_GetNextFeature(layer);
    EXPECT_EQ(OGR_F_IsFieldSetAndNotNull(two, 1), 0);
    EXPECT_EQ(OGR_F_GetGeometryRef(two), nullptr);
    OGR_F_Destroy(two);
    OGRLayerH styles = GDALDatasetGetLayerByName(dataset, "layer_styles");
    ASSERT_NE(styles, nullptr);
    OGRFeatureH style = OGR_L_GetNextFeature(styles);
    EXPECT_STREQ(OGR_F_GetFieldAsString(style, OGR_F_GetFieldIndex(style, "f_table_name")), "fields");
    EXPECT_EQ(OGR_F_GetFieldAsInteger(style, OGR_F_GetFieldIndex(style, "useAsDefault")), 1);
    const std::string qml = OGR_F_GetFieldAsString(style, OGR_F_GetFieldIndex(style, "styleQML"));
    EXPECT_THAT(qml, HasSubstr("attr=\"times_T\""));
    EXPECT_THAT(qml, HasSubstr("label=\"1 to 2\""));
    EXPECT_THAT(qml, HasSubstr("value=\"6,7,8,255\""));
    OGR_F_Destroy(style);
    GDALClose(dataset);
}

TEST(FieldLayer, NothingIsLeftUnlessItIsFinished) {
    const program::Folder folder;
    const MadeLayer made;
    {
        const PendingFieldLayer pending(folder.path + "/out.gpkg", made.placement, made.layer);
        // Nor while it waits: what has no name can't stay behind when the program is killed.
        EXPECT_TRUE(std::filesystem::is_empty(folder.path) || !written_unnamed(folder.path + "/x"));
    }
    EXPECT_TRUE(std::filesystem::is_empty(folder.path));
    EXPECT_THROW(PendingFieldLayer(folder.path + "/none/out.gpkg", made.placement, made.layer), WriteError);
}

TEST(FieldLayer, RowsMustFitTheColumns) {
    const program::Folder folder;
    MadeLayer made;
    made.layer.rows[0].values.pop_back();
    EXPECT_THROW(PendingFieldLayer(folder.path + "/out.gpkg", made.placement, made.layer), std::invalid_argument);
    MadeLayer colours;
    colours.layer.graduated->colours.pop_back();
    EXPECT_THROW(PendingFieldLayer(folder.path + "/out.gpkg", colours.placement, colours.layer), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::raster
