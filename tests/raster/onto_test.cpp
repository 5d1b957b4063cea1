#include "raster/onto.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <random>

#include "program.h"
#include "raster/atomic_file.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"
#include "raster/scratch_file.h"

namespace soilhold::raster {
namespace {

using program::Folder;
using testing::HasSubstr;

Placement grid(std::int64_t columns, std::int64_t rows, double cell = 10) {
    return {.west = 500000,
            .north = 4400000,
            .cell_width = cell,
            .cell_height = cell,
            .columns = columns,
            .rows = rows,
            .crs = "EPSG:32617"};
}

TEST(Onto, TheSameGridChangesNothing) {
    Folder folder;
    const std::string path =
        make_raster(folder.path + "/a.tif", {.columns = 3, .values = {1, 2, -9, 4, 5, 6, 7, 8, 9}, .nodata = -9});
    for (const Between how : {Between::bilinear, Between::average}) {
        const Values values = values_onto(path, grid(3, 3), how);
        EXPECT_TRUE(std::isnan(values.grid(0, 2)));
        EXPECT_EQ(values.grid(1, 1), 5);
        EXPECT_EQ(values.grid(2, 2), 9);
        ASSERT_EQ(values.remarks.size(), 1U);
        EXPECT_THAT(values.remarks[0].text, HasSubstr("1 of 9 cells"));
    }
    EXPECT_EQ(classes_onto(path, grid(3, 3)).grid(1, 0), 4);
    EXPECT_EQ(classes_onto(path, grid(3, 3)).grid(0, 2), no_class);
}

TEST(Onto, WiderCellsTakesTheMeanOrTheNearest) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", {.columns = 4,
                                                                  .values = {1, 1, 2, 2,  //
                                                                             1, 5, 2, 6,  //
                                                                             3, 3, 4, 4,  //
                                                                             3, 7, 4, 8},
                                                                  .width = 5,
                                                                  .height = -5});
    const Values mean = values_onto(path, grid(2, 2), Between::average);
    EXPECT_EQ(mean.grid(0, 0), 2);  // (1+1+1+5)/4
    EXPECT_EQ(mean.grid(0, 1), 3);
    EXPECT_EQ(mean.grid(1, 0), 4);
    EXPECT_EQ(mean.grid(1, 1), 5);
}

TEST(Onto, FinerCellsRepeatsClasses) {
    Folder folder;
    const std::string path = make_raster(
        folder.path + "/a.tif", {.columns = 2, .values = {1, 2, 3, 4}, .width = 30, .height = -30, .type = GDT_Byte});
    const Classes classes = classes_onto(path, grid(6, 6));
    for (int row = 0; row < 6; ++row)
        for (int column = 0; column < 6; ++column)
            EXPECT_EQ(classes.grid(row, column), 1 + column / 3 + 2 * (row / 3)) << row << ", " << column;
    EXPECT_TRUE(classes.remarks.empty());
}

TEST(Onto, AnotherCoordinateSystemKeepsThePlace) {
    Folder folder;
    // Values are longitudes; each cell must get that of its own centre.
    Made made{.columns = 200};
    made.crs = "EPSG:4269";
    made.west = -81.01;
    made.north = 39.76;
    made.width = 0.0001;
    made.height = -0.0001;
    for (int row = 0; row < 200; ++row)
        for (int column = 0; column < 200; ++column) made.values.push_back(column + 0.5);
    Placement place = grid(20, 20);
    place.north = 4400500;
    const Values values = values_onto(make_raster(folder.path + "/a.tif", made), place, Between::bilinear);
    const Point centre = longitude_latitude(place, place.to_map({12.5, 7.5}), "a");
    EXPECT_NEAR(values.grid(7, 12), (centre.x + 81.01) / 0.0001, 0.003);
}

TEST(Onto, AppliesScaleAndHonoursTheMask) {
    Folder folder;
    const std::string path =
        make_raster(folder.path + "/a.tif",
                    {.columns = 2, .values = {10, 20, 30, 40}, .type = GDT_Int16, .scale = 0.1, .offset = 5});
    EXPECT_NEAR(values_onto(path, grid(2, 2), Between::bilinear).grid(1, 1), 9, 1e-6);
    GDALDatasetH dataset = GDALOpen(path.c_str(), GA_Update);
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES");
    GDALCreateDatasetMaskBand(dataset, GMF_PER_DATASET);
    unsigned char mask[4] = {255, 255, 255, 0};
    ASSERT_EQ(
        GDALRasterIO(GDALGetMaskBand(GDALGetRasterBand(dataset, 1)), GF_Write, 0, 0, 2, 2, mask, 2, 2, GDT_Byte, 0, 0),
        CE_None);
    GDALClose(dataset);
    CPLSetThreadLocalConfigOption("GDAL_TIFF_INTERNAL_MASK", nullptr);
    const Values masked = values_onto(path, grid(2, 2), Between::bilinear);
    EXPECT_TRUE(std::isnan(masked.grid(1, 1)));
    EXPECT_NEAR(masked.grid(0, 0), 6, 1e-6);
}

TEST(Onto, ANodataValueThatLostItsDigitsStaysOut) {
    Folder folder;
    const std::string path = make_raster(
        folder.path + "/a.tif",
        {.columns = 2, .values = {1, -3.4028234663852886e38, 1, 1}, .width = 5, .height = -5, .nodata = -3.40282e38});
    EXPECT_EQ(values_onto(path, grid(1, 1), Between::average).grid(0, 0), 1);
}

TEST(Onto, ElsewhereIsRefused) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", {.columns = 1, .values = {1}, .west = 700000});
    EXPECT_EQ(refusal([&] { values_onto(path, grid(3, 3), Between::bilinear); }).code(), "not-here");
    const std::string bare = make_raster(folder.path + "/b.tif", {.columns = 1, .values = {1}, .crs = ""});
    EXPECT_EQ(refusal([&] { values_onto(bare, grid(3, 3), Between::bilinear); }).code(), "no-crs");
    OntoOptions options;
    options.crs = "EPSG:32617";
    EXPECT_EQ(values_onto(bare, grid(1, 1), Between::bilinear, options).grid(0, 0), 1);
    Placement nowhere = grid(1, 1);
    nowhere.crs = "";
    EXPECT_EQ(refusal([&] { values_onto(path, nowhere, Between::bilinear); }).code(), "no-crs");
    EXPECT_EQ(values_onto(bare, nowhere, Between::bilinear).grid(0, 0), 1);
}

TEST(Onto, RealsAreNoClasses) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", {.columns = 2, .values = {1, 1.5}});
    EXPECT_EQ(refusal([&] { classes_onto(path, grid(2, 1)); }).code(), "not-classes");
    const std::string whole = make_raster(folder.path + "/b.tif", {.columns = 2, .values = {1, 16777216}});
    EXPECT_EQ(classes_onto(whole, grid(2, 1)).grid(0, 1), 16777216);
    const std::string large =
        make_raster(folder.path + "/c.tif", {.columns = 2, .values = {1, 4294967295.0}, .type = GDT_UInt32});
    EXPECT_EQ(refusal([&] { classes_onto(large, grid(2, 1)); }).code(), "not-classes");
}

TEST(Burn, AreasByTheirIds) {
    Folder folder;
    const std::string path = make_features(
        folder.path + "/f.gpkg",
        {{"POLYGON((500000 4399980,500020 4399980,500020 4400000,500000 4400000,500000 4399980))", "a", 7},
         {"POLYGON((500020 4399980,500040 4399980,500040 4399990,500020 4399990,500020 4399980))", "b", 9},
         {"", "c", 11}});
    BurnOptions options;
    options.id_column = "id";
    const Classes ids = burn_onto(path, grid(4, 2), options);
    const std::vector<std::int32_t> found(ids.grid.values().begin(), ids.grid.values().end());
    EXPECT_THAT(found, testing::ElementsAre(7, 7, no_class, no_class, 7, 7, 9, 9));
    ASSERT_EQ(ids.remarks.size(), 1U);
    EXPECT_THAT(ids.remarks[0].text, HasSubstr("Feature 3 was left out"));
    options.id_column = "name";
    EXPECT_EQ(refusal([&] { burn_onto(path, grid(4, 2), options); }).code(), "not-classes");
    options.id_column = "number";
    EXPECT_EQ(refusal([&] { burn_onto(path, grid(4, 2), options); }).code(), "no-such-column");
}

TEST(Burn, BarriersHoldAllTheyTouch) {
    Folder folder;
    // A wall from corner to corner, a little off the diagonal: water must not slip through between cells.
    const std::string path =
        make_features(folder.path + "/f.gpkg", {{"LINESTRING(500001 4399999,500048 4399953)", "wall"}});
    BurnOptions options;
    options.all_touched = true;
    const Classes wall = burn_onto(path, grid(5, 5), options);
    int cells = 0;
    for (int row = 0; row < 5; ++row) {
        EXPECT_EQ(wall.grid(row, row), 1);
        for (int column = 0; column < 5; ++column) cells += wall.grid(row, column) == 1;
        EXPECT_TRUE(row == 0 || wall.grid(row, row - 1) == 1 || wall.grid(row - 1, row) == 1) << "a gap at " << row;
    }
    EXPECT_LE(cells, 13);
}

TEST(Burn, InRowsDrawsTheCellsOfTheWhole) {
    Folder folder;
    std::mt19937 random(11);
    const auto place = [&] {
        return std::to_string(500000 + random() % 9000 * 0.1) + " " + std::to_string(4400000 - random() % 7000 * 0.1);
    };
    std::vector<MadeFeature> walls;
    for (int i = 0; i < 12; ++i)
        walls.push_back({"LINESTRING(" + place() + "," + place() + "," + place() + ")", "wall"});
    const std::string path = make_features(folder.path + "/f.gpkg", walls);
    BurnOptions options;
    options.all_touched = true;
    const Classes whole = burn_onto(path, grid(90, 70), options);
    for (const std::int64_t rows : {1, 16, 70}) {
        std::int64_t next = 0;
        burn_in_rows(path, grid(90, 70), options, folder.path, rows,
                     [&](std::int64_t row, const terrain::Grid<std::int32_t>& ids) {
                         EXPECT_EQ(row, next);
                         for (std::int64_t r = 0; r < ids.rows(); ++r)
                             EXPECT_TRUE(std::ranges::equal(ids.row(r), whole.grid.row(row + r)));
                         next += ids.rows();
                     });
        EXPECT_EQ(next, 70);
    }
    Placement elsewhere = grid(9, 9);
    elsewhere.west = 700000;
    EXPECT_EQ(refusal([&] { burn_in_rows(path, elsewhere, options, folder.path, 4, [](auto, const auto&) {}); }).code(),
              "not-here");
}

TEST(ScratchFile, GivesBackWhatWasWrittenAndHasNoName) {
    Folder folder;
    const ScratchFile file(folder.path);
    const terrain::ByteStore store = file.store();
    store.write(70000, "tail", 4);
    store.write(0, "head", 4);
    std::string read(4, ' ');
    store.read(70000, read.data(), 4);
    EXPECT_EQ(read, "tail");
    EXPECT_TRUE(std::filesystem::is_empty(folder.path));
    EXPECT_THROW(store.read(70002, read.data(), 4), WriteError);
    EXPECT_THROW(ScratchFile(folder.path + "/nowhere"), WriteError);
}

TEST(Burn, InDegreesLandsWhereItBelongs) {
    Folder folder;
    Placement place = grid(4, 4, 500);
    place.west = 499000;
    place.north = 4401000;
    // East of 81 degrees west, x is above 500000: the two eastern columns.
    const std::string path = make_features(folder.path + "/f.gpkg",
                                           {{"POLYGON((-81 39,-80 39,-80 40,-81 40,-81 39))", "east"}}, "EPSG:4326");
    const Classes east = burn_onto(path, place);
    for (int row = 0; row < 4; ++row)
        for (int column = 0; column < 4; ++column)
            EXPECT_EQ(east.grid(row, column), column < 2 ? no_class : 1) << row << ", " << column;
    place.west = 700000;
    place.north = 100;
    EXPECT_EQ(refusal([&] { burn_onto(path, place); }).code(), "not-here");
}

}  // namespace
}  // namespace soilhold::raster
