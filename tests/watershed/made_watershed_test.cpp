// The demo watershed as soilhold-made-watershed makes it, read back with the readers that a user's maps go through.

#include <gmock/gmock.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <set>

#include "input/watershed_file.h"
#include "program.h"
#include "raster/elevation.h"
#include "raster/polygons.h"

namespace soilhold::watershed {
namespace {

using testing::Contains;

int make(const std::string& folder, const std::string& seed = "1") {
    return std::system(("'" SOILHOLD_MADE_WATERSHED "' '" + folder + "' " + seed + " 2>/dev/null").c_str());
}

std::map<std::string, std::string> bytes_of(const std::string& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files[entry.path().filename().string()] = program::slurp(entry.path().string());
    return files;
}

/// Made once for all tests of the file.
const program::Folder& made() {
    static const program::Folder folder;
    static const int failed = make(folder.path);
    EXPECT_EQ(failed, 0);
    return folder;
}

raster::Polygons fields_of(const std::string& folder, const raster::Placement& placement) {
    raster::PolygonOptions options;
    options.name_column = "name";
    return raster::read_polygons(folder + "/fields.geojson", placement, options);
}

TEST(MadeWatershed, TheSameSeedGivesTheSameBytesAndAnotherDoesNot) {
    const program::Folder again, other;
    ASSERT_EQ(make(again.path), 0);
    ASSERT_EQ(make(other.path, "2"), 0);
    const auto first = bytes_of(made().path), second = bytes_of(again.path), third = bytes_of(other.path);
    ASSERT_EQ(first.size(), 14U);
    for (const auto& [name, bytes] : first) EXPECT_TRUE(second.at(name) == bytes) << name;
    for (const char* name : {"heights.tif", "fields.geojson", "soils.geojson", "crop-2024.tif"})
        EXPECT_FALSE(third.at(name) == first.at(name)) << name;
}

TEST(MadeWatershed, EveryCellHasAHeight) {
    const raster::Elevation ground = raster::read_elevation(made().path + "/heights.tif");
    EXPECT_EQ(ground.placement.columns * ground.placement.rows, 2000000);
    for (const float height : ground.height_m.values()) ASSERT_TRUE(height > 100 && height < 600) << height;
}

TEST(MadeWatershed, FieldsCoverWhatTheySayAndHaveNamesOfTheirOwn) {
    const raster::Elevation ground = raster::read_elevation(made().path + "/heights.tif");
    const raster::Polygons fields = fields_of(made().path, ground.placement);
    EXPECT_TRUE(fields.left_out.empty());
    EXPECT_GE(fields.polygons.size(), 60U);
    EXPECT_LE(fields.polygons.size(), 200U);
    std::set<std::string> names;
    for (const raster::Polygon& one : fields.polygons) {
        EXPECT_TRUE(names.insert(one.name).second) << one.name;
        // The area in the file was worked out before any reader saw the ring; the file says it to a square metre.
        EXPECT_NEAR(one.area_m2, 1e4 * std::get<double>(one.attributes.at("hectares")), 1.0) << one.name;
    }
}

TEST(MadeWatershed, NeighboursShareTheirEdgesExactly) {
    const raster::Elevation ground = raster::read_elevation(made().path + "/heights.tif");
    const raster::Polygons fields = fields_of(made().path, ground.placement);
    // Of all fields that touch, only the one made to lie over another does: 200 m x 120 m.
    ASSERT_EQ(fields.overlaps.size(), 1U);
    EXPECT_NEAR(fields.overlaps[0].area_m2, 24000.0, 0.5);
    std::map<std::pair<double, double>, int> fields_at_point;
    for (const raster::Polygon& one : fields.polygons) {
        std::set<std::pair<double, double>> own;
        for (const raster::Part& part : one.parts)
            for (const raster::Point& point : part.outer) own.insert({point.x, point.y});
        for (const auto& point : own) ++fields_at_point[point];
    }
    int shared = 0;
    for (const auto& [point, count] : fields_at_point) shared += count > 1 ? 1 : 0;
    EXPECT_GT(shared, 500);
}

TEST(MadeWatershed, TheAwkwardOnesAreThere) {
    const raster::Elevation ground = raster::read_elevation(made().path + "/heights.tif");
    std::map<std::string, std::vector<std::string>> said;
    double inside = 1;
    for (const raster::Polygon& one : fields_of(made().path, ground.placement).polygons) {
        for (const source::Remark& remark : one.remarks) said[one.name].push_back(remark.code);
        if (one.name == "Marchland") inside = one.share_inside;
    }
    EXPECT_THAT(said["Hedgerow Strip"], Contains("sliver"));
    EXPECT_THAT(said["Bowtie Piece"], Contains("polygon-repaired"));
    EXPECT_THAT(said["Marchland"], Contains("partly-outside"));
    EXPECT_NEAR(inside, 0.5, 1e-6);
    EXPECT_THAT(said["Twice-told Acre"], Contains("overlap"));
    // And the field under that last one. No other is repaired, thin, cut off or overlapped.
    EXPECT_EQ(said.size(), 5U);
}

TEST(MadeWatershed, TheWatershedFileIsReadWithoutAMistake) {
    const input::WatershedFile file = input::read_watershed_file(made().path + "/watershed.yaml");
    EXPECT_EQ(file.soils.table.units.size(), 5U);
    EXPECT_EQ(file.cover.classes.size(), 6U);
    EXPECT_EQ(file.cover.rasters.size(), 3U);
    EXPECT_EQ(file.barriers.size(), 1U);
    EXPECT_EQ(file.rotations.size(), 3U);
}

TEST(MadeWatershed, AFolderThatCannotBeMadeIsSaid) { EXPECT_NE(make("/proc/no/such/place"), 0); }

}  // namespace
}  // namespace soilhold::watershed
