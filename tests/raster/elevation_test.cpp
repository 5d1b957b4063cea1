#include "raster/elevation.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <cstring>
#include <filesystem>
#include <random>

#include "program.h"
#include "raster/heights_file.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"

namespace soilhold::raster {
namespace {

using program::Folder;
using testing::HasSubstr;

// By definition: the international foot is 0.3048 m, the US survey foot 1200/3937 m.
constexpr double us_foot = 1200.0 / 3937;

std::vector<std::string> codes(const Elevation& elevation) {
    std::vector<std::string> found;
    for (const source::Remark& remark : elevation.remarks) found.push_back(remark.code);
    return found;
}

/// A plane that rises eastward and northward, cell by cell.
Made plane(int columns, int rows, double base, double east, double north) {
    Made made{.columns = columns};
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
            made.values.push_back(base + east * (column + 0.5) - north * (row + 0.5));
    made.unit = "m";
    return made;
}

TEST(Elevation, InMetresIsTakenAsItStands) {
    Folder folder;
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", plane(4, 3, -20, 1, 0)));
    EXPECT_EQ(ground.height_m(0, 0), -19.5F);  // below the sea is fine
    EXPECT_EQ(ground.height_m.shape().cell_m, 10);
    EXPECT_TRUE(ground.remarks.empty());
}

TEST(Elevation, InFeetComesOutInMetres) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.crs = "EPSG:2263";
    made.west = 1000000;
    made.north = 200000;
    made.unit = "US survey foot";
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", made));
    EXPECT_NEAR(ground.height_m(1, 1), 100 * us_foot, 1e-5);
    EXPECT_NEAR(ground.height_m.shape().cell_m, 10 * us_foot, 1e-9);
    EXPECT_EQ(ground.placement.cell_width, 10);  // its place stays in its own coordinate system
    EXPECT_THAT(codes(ground), testing::ElementsAre("heights-converted"));
}

TEST(Elevation, TakesTheUnitOfACompoundCoordinateSystem) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.crs = "EPSG:32617+6360";  // heights in US survey feet
    made.unit = "";
    const Elevation feet = read_elevation(make_raster(folder.path + "/a.tif", made));
    EXPECT_NEAR(feet.height_m(1, 1), 100 * us_foot, 1e-5);
    made.crs = "EPSG:32617+5703";  // heights in metres
    EXPECT_EQ(read_elevation(make_raster(folder.path + "/b.tif", made)).height_m(1, 1), 100);
}

TEST(Elevation, WithoutAUnitOfHeightIsRefusedWithBothReadings) {
    Folder folder;
    Made made = plane(20, 20, 200, 1, 0);  // rises 1 on 10
    made.unit = "";
    const std::string path = make_raster(folder.path + "/a.tif", made);
    const RasterError error = refusal([&] { read_elevation(path); });
    EXPECT_EQ(error.code(), "no-height-unit");
    EXPECT_THAT(error.what(), HasSubstr("a mean slope of 10 %"));
    EXPECT_THAT(error.what(), HasSubstr("61 to 67 m and a mean slope of 3 %"));  // 0.3048 of 200 to 220
    EXPECT_THAT(error.what(), HasSubstr("--height-unit m or --height-unit ft"));
    ElevationOptions options;
    options.height_unit = length_unit("ft");
    EXPECT_NEAR(read_elevation(path, options).height_m(0, 0), 200.5 * 0.3048, 1e-5);
}

TEST(Elevation, SaysWhenItWasReadOtherwiseThanTheFileSays) {
    Folder folder;
    ElevationOptions options;
    options.height_unit = length_unit("ft");
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", plane(3, 3, 100, 0, 0)), options);
    EXPECT_THAT(codes(ground), testing::ElementsAre("height-unit-overruled"));
}

TEST(Elevation, InDegreesIsRefusedWithTheZoneThatHelps) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.crs = "EPSG:4326";
    made.west = -80.5;
    made.north = 39.5;
    made.width = 1.0 / 3600;
    made.height = -1.0 / 3600;
    const std::string path = make_raster(folder.path + "/a.tif", made);
    const RasterError error = refusal([&] { read_elevation(path); });
    EXPECT_EQ(error.code(), "degrees");
    EXPECT_THAT(error.what(), HasSubstr("--project EPSG:32617 (WGS 84 / UTM zone 17N"));
    EXPECT_THAT(error.what(), HasSubstr("--project auto"));
    ElevationOptions options;
    options.project = "EPSG:4269";
    EXPECT_EQ(refusal([&] { read_elevation(path, options); }).code(), "degrees");
    options.project = "EPSG:99999999";
    EXPECT_EQ(refusal([&] { read_elevation(path, options); }).code(), "unknown-crs");
}

TEST(Elevation, InDegreesIsProjectedOntoSquareCells) {
    Folder folder;
    const int side = 120;
    Made made{.columns = side};
    made.crs = "EPSG:4326";
    made.west = -80.5;
    made.north = 39.5;
    made.width = 1.0 / 3600;
    made.height = -1.0 / 3600;
    made.unit = "m";
    for (int row = 0; row < side; ++row)
        for (int column = 0; column < side; ++column) made.values.push_back(3600 - row - 0.5);  // a metre an arc second
    ElevationOptions options;
    options.project = "auto";
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", made), options);
    EXPECT_EQ(crs_name(ground.placement), "WGS 84 / UTM zone 17N");
    EXPECT_EQ(ground.placement.cell_width, ground.placement.cell_height);
    // An arc second here is 23.9 m eastward and 30.8 m northward.
    EXPECT_GT(ground.height_m.shape().cell_m, 23.9);
    EXPECT_LT(ground.height_m.shape().cell_m, 30.9);
    const std::int64_t row = ground.height_m.rows() / 2, column = ground.height_m.columns() / 2;
    const Point here = longitude_latitude(
        ground.placement, ground.placement.to_map({static_cast<double>(column) + 0.5, static_cast<double>(row) + 0.5}),
        "a.tif");
    EXPECT_NEAR(ground.height_m(row, column), 3600 - (39.5 - here.y) * 3600, 0.005);
    // On the ground it rises a metre in the 30.83 m of an arc second of latitude (WGS 84 at 39.48 degrees).
    const double rise = ground.height_m(row - 20, column) - ground.height_m(row + 20, column);
    EXPECT_NEAR(rise / (40 * ground.height_m.shape().cell_m), 1 / 30.83, 2e-4);
    EXPECT_THAT(codes(ground), testing::Contains("projected"));
}

TEST(Elevation, OnAMapThatStretchesIsRefused) {
    Folder folder;
    Made made = plane(5, 5, 100, 0, 0);
    made.crs = "EPSG:3857";
    made.west = -9000000;
    made.north = 5000000;  // 40.9 degrees north, 1 m northward is cos(40.92) x M/a = 0.7556 x 0.9976 on the ground
    const std::string path = make_raster(folder.path + "/a.tif", made);
    const RasterError error = refusal([&] { read_elevation(path); });
    EXPECT_EQ(error.code(), "stretched-map");
    EXPECT_THAT(error.what(), HasSubstr("is 0.75 m on the ground"));
    EXPECT_THAT(error.what(), HasSubstr("--project EPSG:32617"));
    ElevationOptions options;
    options.project = "auto";
    EXPECT_NEAR(read_elevation(path, options).height_m.shape().cell_m, 7.6, 0.11);
}

TEST(Elevation, WithoutACoordinateSystemIsAskedForItsUnit) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.crs = "";
    const std::string path = make_raster(folder.path + "/a.tif", made);
    const RasterError error = refusal([&] { read_elevation(path); });
    EXPECT_EQ(error.code(), "no-crs");
    EXPECT_THAT(error.what(), HasSubstr("--cell-unit m or --cell-unit ft"));
    ElevationOptions options;
    options.cell_unit = length_unit("ft");
    EXPECT_NEAR(read_elevation(path, options).height_m.shape().cell_m, 3.048, 1e-12);
    options.crs = "EPSG:32617";
    const Elevation told = read_elevation(path, options);
    EXPECT_EQ(told.height_m.shape().cell_m, 10);
    EXPECT_EQ(crs_name(told.placement), "WGS 84 / UTM zone 17N");
    EXPECT_THAT(codes(told), testing::Contains("cell-unit-unused"));
}

TEST(Elevation, WithoutACoordinateSystemButLikeDegreesIsNotTakenAsFeet) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.crs = "";
    made.west = -80;
    made.north = 39;
    made.width = 0.001;
    made.height = -0.001;
    ElevationOptions options;
    options.cell_unit = length_unit("ft");
    EXPECT_THAT(refusal([&] { read_elevation(make_raster(folder.path + "/a.tif", made), options); }).what(),
                HasSubstr("--crs EPSG:4326"));
}

TEST(Elevation, WithLongCellsIsMadeSquare) {
    Folder folder;
    Made made = plane(40, 20, 100, 1, 2);
    made.height = -20;  // rises 0.1 on the metre both ways
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", made));
    EXPECT_NEAR(ground.height_m.shape().cell_m, 14.1, 1e-9);  // the side of a square of 10 by 20, rounded
    EXPECT_NEAR((ground.height_m(10, 10) - ground.height_m(10, 5)) / (5 * 14.1), 0.1, 1e-4);
    EXPECT_NEAR((ground.height_m(5, 10) - ground.height_m(10, 10)) / (5 * 14.1), 0.1, 1e-4);
    made.height = -10.05;  // half a percent is square enough
    EXPECT_TRUE(read_elevation(make_raster(folder.path + "/b.tif", made)).remarks.empty());
}

TEST(Elevation, OnWiderCellsIsTheMeanOfWhatTheyHold) {
    Folder folder;
    Made made{.columns = 40};
    for (int row = 0; row < 40; ++row)
        for (int column = 0; column < 40; ++column)
            made.values.push_back(row == 0 && column < 5 ? -9999 : 100 + row * 0.1 + (column % 10) * 0.5);
    made.width = 1;
    made.height = -1;
    made.nodata = -9999;
    made.unit = "m";
    ElevationOptions options;
    options.cell_m = 10;
    const Elevation ground = read_elevation(make_raster(folder.path + "/a.tif", made), options);
    EXPECT_EQ(ground.height_m.rows(), 4);
    EXPECT_EQ(ground.placement.cell_width, 10);
    for (int row = 1; row < 4; ++row)
        for (int column = 0; column < 4; ++column)
            EXPECT_NEAR(ground.height_m(row, column), 100 + (row * 10 + 4.5) * 0.1 + 2.25, 1e-4);
    // The mean of the 95 heights that are there: all 100 less the five of row 0, columns 0 to 4.
    EXPECT_NEAR(ground.height_m(0, 0), (100 * 102.7 - 5 * 101.0) / 95, 1e-4);
    EXPECT_THAT(codes(ground), testing::ElementsAre("cells-widened"));
}

TEST(Elevation, OnFinerCellsIsRefused) {
    Folder folder;
    ElevationOptions options;
    options.cell_m = 2;
    const RasterError error =
        refusal([&] { read_elevation(make_raster(folder.path + "/a.tif", plane(3, 3, 100, 0, 0)), options); });
    EXPECT_EQ(error.code(), "cell-too-fine");
}

TEST(Elevation, WithTooManyCellsNamesTheCellThatFits) {
    Folder folder;
    ElevationOptions options;
    options.most_cells = 400;
    const std::string path = make_raster(folder.path + "/a.tif", plane(40, 40, 100, 0, 0));
    const RasterError error = refusal([&] { read_elevation(path, options); });
    EXPECT_EQ(error.code(), "too-many-cells");
    EXPECT_THAT(error.what(), HasSubstr("--cell 20 m"));
    options.cell_m = 20;
    EXPECT_EQ(read_elevation(path, options).height_m.rows(), 20);
}

TEST(Elevation, NoGroundHasIsRefusedWithTheOptionThatHelps) {
    Folder folder;
    Made made = plane(3, 3, 100, 0, 0);
    made.values[4] = -9999;
    const std::string path = make_raster(folder.path + "/a.tif", made);
    const RasterError error = refusal([&] { read_elevation(path); });
    EXPECT_EQ(error.code(), "no-ground-height");
    EXPECT_THAT(error.what(), HasSubstr("--nodata -9999;"));
    ElevationOptions options;
    options.nodata = -9999;
    const Elevation ground = read_elevation(path, options);
    EXPECT_TRUE(std::isnan(ground.height_m(1, 1)));
    EXPECT_THAT(codes(ground), testing::ElementsAre("no-height-cells"));
}

TEST(Elevation, CutShortIsRefusedOnEveryWayToAGrid) {
    Folder folder;
    Made made = plane(300, 300, 100, 0.1, 0.2);
    const std::string path = make_raster(folder.path + "/a.tif", made);
    // The directory stands first in the file, so that it opens, and half the cells are gone.
    ASSERT_EQ(truncate(path.c_str(), 300 * 300 * 4 / 2), 0);
    ElevationOptions wider, projected;
    wider.cell_m = 30;
    projected.project = "EPSG:26917";
    for (const ElevationOptions& options : {ElevationOptions{}, wider, projected})
        EXPECT_EQ(refusal([&] { read_elevation(path, options); }).code(), "unreadable-raster");
}

TEST(Elevation, FromAFileWithWrongBytesIsReadOrRefused) {
    Folder folder;
    std::mt19937 chance(3);
    Made made = plane(40, 40, 100, 0.1, 0.2);
    made.creation = {"COMPRESS=DEFLATE", "TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16"};
    const std::string good = program::slurp(make_raster(folder.path + "/good.tif", made));
    ElevationOptions plain, wider;
    plain.most_cells = wider.most_cells = 1000000;
    wider.cell_m = 20;
    int refused = 0;
    testing::internal::CaptureStderr();
    for (int round = 0; round < 300; ++round) {
        std::string bytes = good;
        for (int i = 0; i < 3; ++i) bytes[chance() % (i == 0 ? 400 : bytes.size())] = static_cast<char>(chance());
        std::ofstream(folder.path + "/bad.tif", std::ios::binary) << bytes;
        try {
            const Elevation ground = read_elevation(folder.path + "/bad.tif", round % 2 ? plain : wider);
            EXPECT_GT(ground.height_m.shape().cells(), 0);
        } catch (const RasterError&) {
            ++refused;
        }
    }
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    EXPECT_GT(refused, 100);
}

TEST(Elevation, WithoutAnyHeightIsRefused) {
    Folder folder;
    Made made = plane(3, 3, -1, 0, 0);
    made.nodata = -1;
    EXPECT_EQ(refusal([&] { read_elevation(make_raster(folder.path + "/a.tif", made)); }).code(), "no-heights");
}

/// The heights of a file read some rows at a time.
Elevation in_rows(const std::string& path, const ElevationOptions& options, std::int64_t rows,
                  const std::string& folder) {
    HeightsFile file(path, options);
    Elevation read{terrain::Grid<float>(file.shape()), file.placement(), {}};
    for (std::int64_t row = 0; row < file.shape().rows; row += rows) {
        terrain::Shape shape = file.shape();
        shape.rows = std::min(rows, shape.rows - row);
        terrain::Grid<float> part(shape);
        file.read(row, part, folder);
        std::ranges::copy(part.values(), read.height_m.row(row).begin());
    }
    read.remarks = file.finish();
    return read;
}

TEST(HeightsFile, InRowsHasTheBitsAndTheRemarksOfTheWhole) {
    Folder folder;
    std::mt19937 random(5);
    Made made{.columns = 70};
    for (int i = 0; i < 70 * 60; ++i) made.values.push_back(random() % 9 == 0 ? -9999 : random() % 4000 * 0.1);
    made.nodata = -9999;
    made.unit = "ft";
    Made south_up = made;
    south_up.height = 10;
    Made degrees = made;
    degrees.crs = "EPSG:4326";
    degrees.west = -81, degrees.north = 39.7, degrees.width = 0.0001, degrees.height = -0.0001;
    ElevationOptions wider, projected;
    wider.cell_m = 25;
    projected.project = "auto";
    const std::vector<std::pair<Made, ElevationOptions>> cases = {
        {made, {}}, {south_up, {}}, {made, wider}, {degrees, projected}};
    for (std::size_t i = 0; i < cases.size(); ++i) {
        const std::string path = make_raster(folder.path + "/a.tif", cases[i].first);
        const Elevation whole = read_elevation(path, cases[i].second);
        for (const std::int64_t rows : {1, 7, 64}) {
            const Elevation read = in_rows(path, cases[i].second, rows, folder.path);
            SCOPED_TRACE(testing::Message() << "case " << i << ", rows " << rows);
            EXPECT_EQ(read.placement.geotransform(), whole.placement.geotransform());
            EXPECT_EQ(codes(read), codes(whole));
            ASSERT_EQ(read.height_m.shape(), whole.height_m.shape());
            EXPECT_EQ(std::memcmp(read.height_m.values().data(), whole.height_m.values().data(),
                                  whole.height_m.values().size_bytes()),
                      0);
        }
    }
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& file : std::filesystem::directory_iterator(folder.path)) ++files;
    EXPECT_EQ(files, 1U) << "a scratch file was left behind";
}

TEST(LengthUnit, IsKnownInItsSpellings) {
    EXPECT_EQ(length_unit("Metre")->metres, 1);
    EXPECT_EQ(length_unit("feet")->metres, 0.3048);
    EXPECT_EQ(length_unit("US_survey_foot")->metres, us_foot);
    EXPECT_EQ(length_unit("us-ft")->metres, us_foot);
    EXPECT_EQ(length_unit("cm")->metres, 0.01);
    EXPECT_FALSE(length_unit("cubits"));
    EXPECT_FALSE(length_unit(""));
}

TEST(Placement, FindsTheZoneOfAPlace) {
    EXPECT_EQ(utm_zone({-81, 39}), "EPSG:32617");
    EXPECT_EQ(utm_zone({-180, -1}), "EPSG:32701");
    EXPECT_EQ(utm_zone({179.9, 1}), "EPSG:32660");
    EXPECT_EQ(utm_zone({180, 1}), "EPSG:32601");
    EXPECT_EQ(utm_zone({12, 85}), "EPSG:32661");
}

}  // namespace
}  // namespace soilhold::raster
