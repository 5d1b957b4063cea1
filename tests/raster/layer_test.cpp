#include "raster/layer.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>

#include "program.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"

namespace soilhold::raster {
namespace {

using program::Folder;
using testing::HasSubstr;

TEST(Layer, KnowsWhereItLies) {
    Folder folder;
    const Layer layer(make_raster(folder.path + "/a.tif", {.columns = 3, .values = {1, 2, 3, 4, 5, 6}}));
    const Placement& place = layer.placement();
    EXPECT_EQ(place.columns, 3);
    EXPECT_EQ(place.rows, 2);
    EXPECT_EQ(place.west, 500000);
    EXPECT_EQ(place.south(), 4399980);
    EXPECT_EQ(crs_name(place), "WGS 84 / UTM zone 17N");
    EXPECT_EQ(metres_per_unit(place), 1);
    EXPECT_FALSE(is_geographic(place));
    EXPECT_EQ(layer.values()(1, 2), 6);
    EXPECT_EQ(layer.values().shape().cell_m, 10);
}

TEST(Layer, CountsCellsInFeetAsMetres) {
    Folder folder;
    const Layer layer(make_raster(folder.path + "/a.tif",
                                  {.columns = 1, .values = {1}, .crs = "EPSG:2263", .west = 9e5, .north = 2e5}));
    // 1 US survey foot = 1200/3937 m, by its definition of 1893.
    EXPECT_NEAR(layer.values().shape().cell_m, 10 * 1200.0 / 3937, 1e-12);
    EXPECT_THAT(unit_name(layer.placement()), HasSubstr("survey foot"));
}

TEST(Layer, GivesNoValueWhereTheFileHasNone) {
    Folder folder;
    const auto values =
        Layer(make_raster(folder.path + "/a.tif", {.columns = 4, .values = {1, -9999, NAN, INFINITY}, .nodata = -9999}))
            .values();
    EXPECT_EQ(values(0, 0), 1);
    for (int column = 1; column < 4; ++column) EXPECT_TRUE(std::isnan(values(0, column))) << column;
}

TEST(Layer, KnowsANodataValueThatLostItsDigits) {
    Folder folder;
    // The lowest 32-bit number, written in a text file with six digits, and a tenth that 32 bits can't hold.
    const Layer lowest(make_raster(folder.path + "/a.tif",
                                   {.columns = 2, .values = {7, -3.4028234663852886e38}, .nodata = -3.40282e38}));
    EXPECT_TRUE(std::isnan(lowest.values()(0, 1)));
    const Layer tenth(make_raster(folder.path + "/b.tif", {.columns = 2, .values = {7, -9999.9}, .nodata = -9999.9}));
    EXPECT_TRUE(std::isnan(tenth.values()(0, 1)));
    EXPECT_EQ(tenth.values()(0, 0), 7);
}

TEST(Layer, TakesANodataValueTheFileForgot) {
    Folder folder;
    const Layer layer(make_raster(folder.path + "/a.tif", {.columns = 2, .values = {7, -32768}}));
    EXPECT_EQ(layer.values()(0, 1), -32768);
    EXPECT_TRUE(std::isnan(layer.values(1, -32768)(0, 1)));
}

TEST(Layer, AppliesScaleAndOffset) {
    Folder folder;
    const auto values =
        Layer(make_raster(
                  folder.path + "/a.tif",
                  {.columns = 2, .values = {100, -1}, .type = GDT_Int16, .nodata = -1, .scale = 0.5, .offset = 200}))
            .values();
    EXPECT_EQ(values(0, 0), 250);
    EXPECT_TRUE(std::isnan(values(0, 1)));
}

TEST(Layer, HidesWhatItsMaskHides) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", {.columns = 2, .values = {7, 8}});
    GDALDatasetH dataset = GDALOpen(path.c_str(), GA_Update);
    GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES");
    GDALCreateMaskBand(band, GMF_PER_DATASET);
    unsigned char mask[2] = {0, 255};
    ASSERT_EQ(GDALRasterIO(GDALGetMaskBand(band), GF_Write, 0, 0, 2, 1, mask, 2, 1, GDT_Byte, 0, 0), CE_None);
    GDALClose(dataset);
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", nullptr);
    const Layer layer(path);
    EXPECT_TRUE(layer.band(1).masked);
    EXPECT_TRUE(std::isnan(layer.values()(0, 0)));
    EXPECT_EQ(layer.values()(0, 1), 8);
}

TEST(Layer, ReadsAWindowAsTheWholeHoldsIt) {
    Folder folder;
    Made made{.columns = 50};
    for (int i = 0; i < 50 * 40; ++i) made.values.push_back(i);
    made.creation = {"TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16", "COMPRESS=DEFLATE"};
    const Layer layer(make_raster(folder.path + "/a.tif", made));
    const auto all = layer.values();
    const auto part = layer.values(1, {13, 7, 20, 30});
    for (int row = 0; row < 20; ++row)
        for (int column = 0; column < 30; ++column) ASSERT_EQ(part(row, column), all(13 + row, 7 + column));
    EXPECT_EQ(all(39, 49), 1999);
    EXPECT_THROW(layer.values(1, {30, 0, 11, 1}), std::invalid_argument);
}

TEST(Layer, TurnsAFileThatBeginsInTheSouth) {
    Folder folder;
    const Layer layer(
        make_raster(folder.path + "/a.tif", {.columns = 1, .values = {1, 2, 3}, .north = 4399970, .height = 10}));
    EXPECT_EQ(layer.placement().north, 4400000);
    EXPECT_EQ(layer.values()(0, 0), 3);
    EXPECT_EQ(layer.values(1, {1, 0, 2, 1})(1, 0), 1);
}

TEST(Layer, ReadsClassesAsWholeNumbers) {
    Folder folder;
    const Layer layer(
        make_raster(folder.path + "/a.tif", {.columns = 3, .values = {4, 255, 0}, .type = GDT_Byte, .nodata = 255}));
    const auto classes = layer.classes();
    EXPECT_EQ(classes(0, 0), 4);
    EXPECT_EQ(classes(0, 1), no_class);
    EXPECT_EQ(classes(0, 2), 0);
    const Layer reals(make_raster(folder.path + "/b.tif", {.columns = 2, .values = {4, 4.5}}));
    const RasterError error = refusal([&] { reals.classes(); });
    EXPECT_EQ(error.code(), "not-classes");
    EXPECT_THAT(error.what(), HasSubstr("row 1, column 2 holds 4.5"));
}

TEST(Layer, SaysWhichFileIsMissing) {
    const RasterError error = refusal([] { Layer("/no-such-folder/dem.tif"); });
    EXPECT_EQ(error.code(), "no-such-file");
    EXPECT_EQ(error.diagnostics.front().place.file, "/no-such-folder/dem.tif");
}

TEST(Layer, RefusesWhatIsNoRaster) {
    Folder folder;
    std::ofstream(folder.path + "/words.tif") << "these are words";
    EXPECT_EQ(refusal([&] { Layer(folder.path + "/words.tif"); }).code(), "unreadable-raster");
    std::ofstream(folder.path + "/empty.tif");
    EXPECT_THAT(refusal([&] { Layer(folder.path + "/empty.tif"); }).what(), HasSubstr("is empty"));
    make_features(folder.path + "/fields.gpkg", {{"POLYGON((0 0,1 0,1 1,0 0))", "a", 1}});
    const RasterError vector = refusal([&] { Layer(folder.path + "/fields.gpkg"); });
    EXPECT_EQ(vector.code(), "not-a-raster");
    EXPECT_THAT(vector.what(), HasSubstr("polygons"));
}

TEST(Layer, RefusesAFileCutShort) {
    Folder folder;
    Made made{.columns = 200};
    for (int i = 0; i < 200 * 200; ++i) made.values.push_back(std::sin(i) * 100);
    for (const char* packing : {"COMPRESS=NONE", "COMPRESS=DEFLATE"}) {
        made.creation = {packing};
        const std::string path = make_raster(folder.path + "/" + packing + ".tif", made);
        const auto size = static_cast<long>(program::slurp(path).size());
        for (const long kept : {size - size / 10, size / 2, size / 20, 5L}) {
            ASSERT_EQ(truncate(path.c_str(), kept), 0);
            testing::internal::CaptureStderr();
            const RasterError error = refusal([&] { Layer(path).values(); });
            EXPECT_EQ(error.code(), "unreadable-raster") << packing << " " << kept;
            EXPECT_THAT(error.what(), HasSubstr("GDAL"));
            EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
        }
    }
}

TEST(Layer, RefusesComplexNumbersRotationAndNoPlace) {
    Folder folder;
    const Layer radar(make_raster(folder.path + "/a.tif", {.columns = 1, .values = {1}, .type = GDT_CFloat32}));
    EXPECT_EQ(refusal([&] { radar.values(); }).code(), "complex-numbers");
    make_raster(folder.path + "/b.tif", {.columns = 1, .values = {1}, .turn = 2});
    EXPECT_EQ(refusal([&] { Layer(folder.path + "/b.tif"); }).code(), "rotated-raster");
    make_raster(folder.path + "/c.tif", {.columns = 1, .values = {1}, .place = false});
    EXPECT_EQ(refusal([&] { Layer(folder.path + "/c.tif"); }).code(), "no-georeference");
}

TEST(Layer, RefusesABandItDoesNotHave) {
    Folder folder;
    const Layer layer(make_raster(folder.path + "/a.tif", {.columns = 1, .values = {1}}));
    EXPECT_THAT(refusal([&] { layer.values(2); }).what(), HasSubstr("one band only"));
}

}  // namespace
}  // namespace soilhold::raster
