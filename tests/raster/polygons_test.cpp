#include "raster/polygons.h"

#include <gmock/gmock.h>

#include "program.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"

namespace soilhold::raster {
namespace {

using program::Folder;
using testing::ElementsAre;
using testing::HasSubstr;

/// 100 by 100 cells of 10 m.
Placement grid() {
    return {.west = 500000,
            .north = 4401000,
            .cell_width = 10,
            .cell_height = 10,
            .columns = 100,
            .rows = 100,
            .crs = "EPSG:32617"};
}

/// A rectangle so many metres east and north of the south-west corner of the grid.
std::string box(double west, double south, double width, double height) {
    const double x = 500000 + west, y = 4400000 + south;
    return "POLYGON((" + std::to_string(x) + " " + std::to_string(y) + "," + std::to_string(x + width) + " " +
           std::to_string(y) + "," + std::to_string(x + width) + " " + std::to_string(y + height) + "," +
           std::to_string(x) + " " + std::to_string(y + height) + "," + std::to_string(x) + " " + std::to_string(y) +
           "))";
}

std::vector<std::string> codes(const Polygon& polygon) {
    std::vector<std::string> found;
    for (const source::Remark& remark : polygon.remarks) found.push_back(remark.code);
    return found;
}

TEST(Polygons, BringTheirNamesColumnsAndAreas) {
    Folder folder;
    const auto read =
        read_polygons(make_features(folder.path + "/f.gpkg", {{box(100, 100, 200, 150), "bench", 7}}), grid());
    ASSERT_EQ(read.polygons.size(), 1U);
    const Polygon& bench = read.polygons[0];
    EXPECT_EQ(bench.name, "bench");
    EXPECT_EQ(std::get<std::int64_t>(bench.attributes.at("id")), 7);
    EXPECT_EQ(std::get<std::string>(bench.attributes.at("name")), "bench");
    EXPECT_NEAR(bench.area_m2, 30000, 1e-6);
    EXPECT_EQ(bench.share_inside, 1);
    EXPECT_TRUE(bench.remarks.empty());
}

TEST(Polygons, KeepHolesAndParts) {
    Folder folder;
    const std::string wkt =
        "MULTIPOLYGON(((500100 4400100,500200 4400100,500200 4400200,500100 4400200,500100 4400100),"
        "(500120 4400120,500120 4400140,500140 4400140,500140 4400120,500120 4400120)),"
        "((500300 4400100,500310 4400100,500310 4400110,500300 4400110,500300 4400100)))";
    const auto read = read_polygons(make_features(folder.path + "/f.gpkg", {{wkt, "a"}}), grid());
    ASSERT_EQ(read.polygons.size(), 1U);
    EXPECT_EQ(read.polygons[0].parts.size(), 2U);
    EXPECT_EQ(read.polygons[0].parts[0].holes.size(), 1U);
    EXPECT_NEAR(read.polygons[0].area_m2, 10000 - 400 + 100, 1e-6);
}

TEST(Polygons, ThatCrossThemselvesAreRepairedAndSaidToBe) {
    Folder folder;
    // A bow tie: two triangles of 100 x 50 / 2.
    const std::string tie = "POLYGON((500100 4400100,500200 4400200,500200 4400100,500100 4400200,500100 4400100))";
    const auto read = read_polygons(make_features(folder.path + "/f.gpkg", {{tie, "tie"}}), grid());
    ASSERT_EQ(read.polygons.size(), 1U);
    EXPECT_NEAR(read.polygons[0].area_m2, 5000, 1e-6);
    EXPECT_THAT(codes(read.polygons[0]), ElementsAre("polygon-repaired"));
    EXPECT_THAT(read.polygons[0].remarks[0].text, HasSubstr("Self-intersection"));
}

TEST(Polygons, SayWhereTheyCrossThemselvesToTheCentimetre) {
    Folder folder;
    // The two long sides cross where 0.7 x = 100 - 0.7 x, at x 500171.428571..., y 4400150.
    const std::string tie =
        "POLYGON((500100 4400100,500242.857142857 4400200,500242.857142857 4400100,500100 4400200,"
        "500100 4400100))";
    const auto read = read_polygons(make_features(folder.path + "/f.gpkg", {{tie, "tie"}}), grid());
    ASSERT_EQ(read.polygons.size(), 1U);
    EXPECT_THAT(read.polygons[0].remarks[0].text, HasSubstr(" 500171.43 "));
}

TEST(Polygons, LeaveNoFeatureOutInSilence) {
    Folder folder;
    const auto read =
        read_polygons(make_features(folder.path + "/f.gpkg",
                                    {{box(100, 100, 100, 100), "good"},
                                     {"", "nothing"},
                                     {"POLYGON EMPTY", "empty"},
                                     {"LINESTRING(500000 4400000,500100 4400100)", "line"},
                                     {"POLYGON((500000 4400000,500100 4400100,500000 4400000,500000 4400000))", "flat"},
                                     {box(5000, 5000, 10, 10), "far"}}),
                      grid());
    ASSERT_EQ(read.polygons.size(), 1U);
    ASSERT_EQ(read.left_out.size(), 5U);
    EXPECT_EQ(read.left_out[0].name, "nothing");
    EXPECT_THAT(read.left_out[0].why, HasSubstr("no outline"));
    EXPECT_THAT(read.left_out[1].why, HasSubstr("no outline"));
    EXPECT_THAT(read.left_out[2].why, HasSubstr("LINESTRING"));
    EXPECT_THAT(read.left_out[3].why, HasSubstr("no area"));
    EXPECT_THAT(read.left_out[4].why, HasSubstr("outside"));
    EXPECT_TRUE(read.left_out[0].parts.empty());
    EXPECT_EQ(read.left_out[4].parts.size(), 1U);  // it can be shown where it lies
}

TEST(Polygons, SayHowMuchLiesOnTheRaster) {
    Folder folder;
    const auto read =
        read_polygons(make_features(folder.path + "/f.gpkg", {{box(-50, 100, 200, 100), "edge"}}), grid());
    EXPECT_NEAR(read.polygons[0].share_inside, 0.75, 1e-9);
    EXPECT_THAT(codes(read.polygons[0]), ElementsAre("partly-outside"));
    EXPECT_THAT(read.polygons[0].remarks[0].text, HasSubstr("75 %"));
}

TEST(Polygons, SayWhichOverlapAndByHowMuch) {
    Folder folder;
    const auto read = read_polygons(
        make_features(folder.path + "/f.gpkg", {{box(400, 100, 100, 100), "c"},  // shares an edge with b: no overlap
                                                {box(100, 100, 200, 100), "a"},
                                                {box(280, 150, 120, 100), "b"}}),
        grid());
    ASSERT_EQ(read.overlaps.size(), 1U);
    EXPECT_EQ(read.overlaps[0].one, 1U);
    EXPECT_EQ(read.overlaps[0].other, 2U);
    EXPECT_NEAR(read.overlaps[0].area_m2, 20 * 50, 1e-6);
    EXPECT_THAT(codes(read.polygons[1]), ElementsAre("overlap"));
    EXPECT_THAT(codes(read.polygons[2]), ElementsAre("overlap"));
    EXPECT_TRUE(read.polygons[0].remarks.empty());
}

TEST(Polygons, SayWhichNamesComeTwiceAndWhichAreSlivers) {
    Folder folder;
    const auto read = read_polygons(make_features(folder.path + "/f.gpkg", {{box(100, 100, 50, 50), "home"},
                                                                            {box(200, 100, 50, 50), "home"},
                                                                            {box(300, 100, 0.5, 400), "strip"},
                                                                            {box(400, 100, 50, 50), ""}}),
                                    grid());
    EXPECT_THAT(codes(read.polygons[0]), ElementsAre("duplicate-name"));
    EXPECT_THAT(codes(read.polygons[1]), ElementsAre("duplicate-name"));
    EXPECT_THAT(codes(read.polygons[2]), ElementsAre("sliver"));
    EXPECT_EQ(read.polygons[3].name, "feature 4");
}

TEST(Polygons, InDegreesComeOutInTheGridsCoordinates) {
    Folder folder;
    // The central meridian of zone 17 is 81 degrees west, where x is 500000 exactly.
    const auto read = read_polygons(
        make_features(folder.path + "/f.gpkg",
                      {{"POLYGON((-81 39.745,-80.99 39.745,-80.99 39.755,-81 39.755,-81 39.745))", "a"}}, "EPSG:4326"),
        grid());
    EXPECT_NEAR(read.polygons[0].parts[0].outer[0].x, 500000, 1e-6);
    EXPECT_NEAR(read.polygons[0].parts[0].outer[0].y, 4400000, 1500);
}

TEST(Polygons, WithoutACoordinateSystemAreRefused) {
    Folder folder;
    make_features(folder.path + "/f.gpkg", {{box(100, 100, 50, 50), "a"}});
    std::ofstream(folder.path + "/f.csv") << "name,WKT\na,\"" << box(100, 100, 50, 50) << "\"\n";
    EXPECT_EQ(refusal([&] { read_polygons(folder.path + "/f.csv", grid()); }).code(), "no-crs");
    Placement bare = grid();
    bare.crs = "";
    EXPECT_THROW(read_polygons(folder.path + "/f.csv", bare), std::invalid_argument);  // of what unit?
    bare.unit_m = 0.3048;
    EXPECT_EQ(refusal([&] { read_polygons(folder.path + "/f.gpkg", bare); }).code(), "no-crs");
    EXPECT_NEAR(read_polygons(folder.path + "/f.csv", bare).polygons[0].area_m2, 2500 * 0.3048 * 0.3048, 1e-6);
}

TEST(Polygons, NameWhatCanNotBeFound) {
    Folder folder;
    const std::string path = make_features(folder.path + "/f.gpkg", {{box(100, 100, 50, 50), "a"}});
    EXPECT_EQ(refusal([&] { read_polygons(folder.path + "/none.gpkg", grid()); }).code(), "no-such-file");
    EXPECT_THAT(refusal([&] { read_polygons(path, grid(), {.layer = "farms", .name_column = ""}); }).what(),
                HasSubstr("it has: fields"));
    const RasterError column = refusal([&] { read_polygons(path, grid(), {.layer = "", .name_column = "owner"}); });
    EXPECT_EQ(column.code(), "no-such-column");
    EXPECT_THAT(column.what(), HasSubstr("it has: name, id"));
    const std::string far = make_features(folder.path + "/far.gpkg", {{box(9000, 9000, 50, 50), "a"}});
    EXPECT_EQ(refusal([&] { read_polygons(far, grid()); }).code(), "no-polygons");
}

}  // namespace
}  // namespace soilhold::raster
