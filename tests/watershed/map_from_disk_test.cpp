#include "watershed/map_from_disk.h"

#include <gtest/gtest.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <random>

#include "program.h"
#include "raster/atomic_file.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"
#include "terrain/made_ground.h"

namespace soilhold::watershed {
namespace {

using program::Folder;

/// Every grid of a map, whole.
struct Grids {
    std::vector<terrain::Grid<float>> values;
    terrain::Grid<std::uint8_t> directions, channels;
    SlopeMapResult result;

    MapTakers takers() {
        MapTakers takers;
        takers.placed = [this](const raster::Placement&, const terrain::Shape& shape) {
            values.assign(6, terrain::Grid<float>(shape));
            directions = channels = terrain::Grid<std::uint8_t>(shape);
        };
        const auto kept = [this](std::size_t which) {
            return [this, which](std::int64_t row, const terrain::Grid<float>& strip) {
                std::ranges::copy(strip.values(), values[which].row(row).begin());
            };
        };
        takers.gradient = kept(0);
        takers.filled = kept(1);
        takers.area = kept(2);
        takers.slope_length = kept(3);
        takers.slope_factor = kept(4);
        takers.channels = [this](std::int64_t row, const terrain::Grid<std::uint8_t>& strip) {
            std::ranges::copy(strip.values(), channels.row(row).begin());
        };
        takers.directions = [this](std::int64_t row, const terrain::Grid<std::uint8_t>& strip) {
            std::ranges::copy(strip.values(), directions.row(row).begin());
        };
        return takers;
    }
};

Grids in_memory(const std::string& path, const SlopeMapOptions& options) {
    Grids grids;
    grids.result = slope_map(path, options, grids.takers());
    return grids;
}

Grids from_disk(const std::string& path, const SlopeMapOptions& options, const DiskPlan& plan) {
    Grids grids;
    raster::HeightsFile file(path, options.elevation);
    grids.result = slope_map_from_disk(file, path, options, grids.takers(), plan);
    return grids;
}

template <class T>
bool same_bits(const terrain::Grid<T>& a, const terrain::Grid<T>& b) {
    return a.shape() == b.shape() && std::memcmp(a.values().data(), b.values().data(), a.values().size_bytes()) == 0;
}

void expect_same(const Spread& a, const Spread& b) {
    EXPECT_EQ(a.cells, b.cells);
    EXPECT_EQ(a.tenth, b.tenth);
    EXPECT_EQ(a.middle, b.middle);
    EXPECT_EQ(a.nine_tenth, b.nine_tenth);
    EXPECT_EQ(a.mean, b.mean);
}

void expect_same(const Grids& a, const Grids& b) {
    ASSERT_EQ(a.values.size(), b.values.size());
    for (std::size_t i = 0; i < a.values.size(); ++i) EXPECT_TRUE(same_bits(a.values[i], b.values[i])) << "grid " << i;
    EXPECT_TRUE(same_bits(a.directions, b.directions));
    EXPECT_TRUE(same_bits(a.channels, b.channels));
    EXPECT_EQ(a.result.placement.geotransform(), b.result.placement.geotransform());
    EXPECT_EQ(a.result.shape, b.result.shape);
    EXPECT_EQ(a.result.cells_with_height, b.result.cells_with_height);
    EXPECT_EQ(a.result.channel_cells, b.result.channel_cells);
    EXPECT_EQ(a.result.barrier_cells, b.result.barrier_cells);
    EXPECT_EQ(a.result.largest_basin_m2, b.result.largest_basin_m2);
    EXPECT_EQ(a.result.pits.filled.cells_raised, b.result.pits.filled.cells_raised);
    EXPECT_EQ(a.result.pits.filled.pits, b.result.pits.filled.pits);
    EXPECT_EQ(a.result.pits.filled.deepest_m, b.result.pits.filled.deepest_m);
    EXPECT_EQ(a.result.pits.filled.volume_m3, b.result.pits.filled.volume_m3);
    ASSERT_EQ(a.result.pits.cut.has_value(), b.result.pits.cut.has_value());
    if (a.result.pits.cut) {
        EXPECT_EQ(a.result.pits.cut->cells_lowered, b.result.pits.cut->cells_lowered);
        EXPECT_EQ(a.result.pits.cut->volume_m3, b.result.pits.cut->volume_m3);
    }
    expect_same(a.result.gradient, b.result.gradient);
    expect_same(a.result.slope_factor, b.result.slope_factor);
    ASSERT_EQ(a.result.remarks.size(), b.result.remarks.size());
    for (std::size_t i = 0; i < a.result.remarks.size(); ++i)
        EXPECT_EQ(a.result.remarks[i].text, b.result.remarks[i].text);
}

std::string write_heights(const std::string& path, const terrain::Grid<float>& heights) {
    raster::WriteOptions in_metres;
    in_metres.unit = "m";
    raster::write_values(path, heights,
                         {.west = 500000,
                          .north = 4400000,
                          .cell_width = heights.shape().cell_m,
                          .cell_height = heights.shape().cell_m,
                          .columns = heights.columns(),
                          .rows = heights.rows(),
                          .crs = "EPSG:32617"},
                         in_metres);
    return path;
}

/// Walls that wind over ground of 5 m cells.
std::string make_walls(const std::string& path, std::int64_t rows, std::int64_t columns) {
    std::mt19937 random(4);
    const auto place = [&] {
        return std::to_string(500000 + random() % static_cast<unsigned>(50 * columns) * 0.1) + " " +
               std::to_string(4400000 - random() % static_cast<unsigned>(50 * rows) * 0.1);
    };
    std::vector<raster::MadeFeature> walls;
    for (int i = 0; i < 8; ++i)
        walls.push_back({"LINESTRING(" + place() + "," + place() + "," + place() + ")", "wall"});
    return raster::make_features(path, walls);
}

constexpr DiskPlan cut(std::int64_t side, std::int64_t rows, std::size_t strips = 4) {
    return {.side = side, .rows = rows, .strips = strips};
}

TEST(MapFromDisk, HasTheBitsAndTheFindingsOfAMapInMemory) {
    const Folder folder;
    // Taller than two strips; benches make level ground that is larger than a tile.
    const std::string path = write_heights(folder.path + "/dem.tif", terrain::rough_ground(530, 120, 5));
    SlopeMapOptions options;
    options.folder = folder.path;
    options.rules.longest_slope_m = 60;
    const std::string walls = make_walls(folder.path + "/walls.gpkg", 530, 120);
    for (const Routing routing : {Routing::d8, Routing::d_infinity, Routing::multiple})
        for (const bool walled : {false, true}) {
            options.routing = routing;
            options.barriers.clear();
            if (walled) options.barriers = {walls, walls};
            options.pits.cuts.reset();
            if (walled) options.pits.cuts = terrain::CutLimits{.longest_m = 40, .deepest_m = 2};
            const Grids whole = in_memory(path, options);
            for (const DiskPlan& plan : {cut(32, 256), cut(256, 256, 2), cut(256, 512)}) {
                SCOPED_TRACE(testing::Message() << "routing " << static_cast<int>(routing) << ", walls " << walled
                                                << ", side " << plan.side << ", rows " << plan.rows);
                expect_same(whole, from_disk(path, options, plan));
            }
        }
}

TEST(MapFromDisk, HasTheBitsOfSmallTroubledMapsInTinyTiles) {
    const Folder folder;
    std::mt19937 random(77);
    for (int trial = 0; trial < 6; ++trial) {
        auto ground = terrain::troubled_ground(random, 60);
        ground(0, 0) = 1;  // a map without any height is refused
        const std::string path = write_heights(folder.path + "/dem.tif", ground);
        SlopeMapOptions options;
        options.folder = folder.path;
        options.rules.longest_slope_m = 9;
        options.rules.channel_from_m2 = 150;
        options.routing = trial % 3 == 0 ? Routing::multiple : trial % 3 == 1 ? Routing::d_infinity : Routing::d8;
        const Grids whole = in_memory(path, options);
        for (const std::int64_t side : {4, 32}) {
            SCOPED_TRACE(testing::Message() << "trial " << trial << ", side " << side);
            expect_same(whole, from_disk(path, options, cut(side, 256)));
        }
    }
}

TEST(MapFromDisk, IsTheWayForMapsLargerThanTheMemoryAllowed) {
    const Folder folder;
    const std::string path = write_heights(folder.path + "/dem.tif", terrain::rough_ground(400, 400, 9));
    SlopeMapOptions options;
    options.folder = folder.path;
    raster::HeightsFile file(path);
    const DiskPlan plan = [&] {
        options.memory = 1'000'000'000;
        return plan_from_disk(file, path, options, {});
    }();
    EXPECT_LT(plan.memory, options.memory);
    const Grids whole = in_memory(path, options);
    for (const auto& remark : whole.result.remarks) EXPECT_NE(remark.code, "worked-from-disk");
    // 160 000 cells fit in little more than what the program takes anyway, so a map that doesn't is refused too.
    options.memory = 100'000'000;
    EXPECT_EQ(raster::refusal([&] { in_memory(path, options); }).code(), "too-little-memory");
}

TEST(MapFromDisk, TakesLargerTilesWhereRimsWouldNotFit) {
    const Folder folder;
    // 40 000 x 40 000 cells that stand in no file.
    const std::string path = folder.path + "/wide.vrt";
    std::ofstream(path) << R"(<VRTDataset rasterXSize="40000" rasterYSize="40000"><SRS>EPSG:32617</SRS>
        <GeoTransform>500000, 1, 0, 4400000, 0, -1</GeoTransform>
        <VRTRasterBand dataType="Float32" band="1"><UnitType>m</UnitType></VRTRasterBand></VRTDataset>)";
    SlopeMapOptions options;
    options.elevation.most_cells = 40'000 * 40'000LL;
    const raster::HeightsFile file(path, options.elevation);
    std::int64_t side = 0;
    for (const std::int64_t memory : {8'000'000'000LL, 2'000'000'000LL, 1'600'000'000LL}) {
        options.memory = memory;
        const DiskPlan plan = plan_from_disk(file, path, options, {});
        EXPECT_LE(plan.memory, memory);
        EXPECT_GE(plan.side, side);
        side = plan.side;
    }
    EXPECT_GT(side, 256);
    options.memory = 300'000'000;
    EXPECT_EQ(raster::refusal([&] { plan_from_disk(file, path, options, {}); }).code(), "too-little-memory");
}

TEST(MapFromDisk, StopsAtAnyStepAndLeavesNothingBehind) {
    const Folder folder;
    const std::string path = write_heights(folder.path + "/dem.tif", terrain::rough_ground(300, 40, 2));
    SlopeMapOptions options;
    options.folder = folder.path;
    options.routing = Routing::multiple;
    options.rules.longest_slope_m = 20;
    std::vector<double> shares;
    const auto run = [&](const std::function<bool(double)>& progress) {
        raster::HeightsFile file(path, options.elevation);
        slope_map_from_disk(file, path, options, {}, cut(64, 256), progress);
    };
    run([&](double share) {
        shares.push_back(share);
        return true;
    });
    ASSERT_GE(shares.size(), 10U);
    EXPECT_TRUE(std::ranges::is_sorted(shares));
    EXPECT_EQ(shares.front(), 0);
    EXPECT_EQ(shares.back(), 1);
    for (std::size_t stop = 0; stop < shares.size(); ++stop) {
        std::size_t told = 0;
        EXPECT_THROW(run([&](double) { return told++ < stop; }), Stopped);
    }
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path)) ++files;
    EXPECT_EQ(files, 1U);
}

TEST(MapFromDisk, RefusesHeightsThatNoGroundHasAsInMemory) {
    const Folder folder;
    terrain::Grid<float> heights({20, 20, 5}, 30);
    heights(19, 19) = -9999;
    const std::string path = write_heights(folder.path + "/dem.tif", heights);
    SlopeMapOptions options;
    options.folder = folder.path;
    EXPECT_EQ(raster::refusal([&] { from_disk(path, options, cut(256, 256)); }).code(), "no-ground-height");
}

}  // namespace
}  // namespace soilhold::watershed
