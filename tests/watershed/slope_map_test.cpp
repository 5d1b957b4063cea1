#include "watershed/slope_map.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "program.h"
#include "raster/atomic_file.h"

namespace soilhold::watershed {
namespace {

TEST(SlopeMap, CountsQuantilesWithoutSorting) {
    terrain::Grid<float> grid({100, 10, 5});
    for (std::int64_t i = 0; i < 1000; ++i) grid(i / 100, i % 100) = static_cast<float>((i * 7919 % 1000 + 1) * 0.01);
    const Spread spread = spread_of(grid);  // 0.01 to 10, each once
    EXPECT_EQ(spread.cells, 1000);
    EXPECT_NEAR(spread.tenth, 1, 1.0 / 2048);
    EXPECT_NEAR(spread.middle, 5, 5.0 / 2048);
    EXPECT_NEAR(spread.nine_tenth, 9, 9.0 / 2048);
    EXPECT_NEAR(spread.mean, 5.005, 1e-5);
}

TEST(SlopeMap, LeavesCellsWithoutValueOutOfQuantiles) {
    terrain::Grid<float> grid({3, 1, 5}, terrain::no_value);
    EXPECT_EQ(spread_of(grid).cells, 0);
    grid(0, 1) = 0;
    EXPECT_EQ(spread_of(grid).cells, 1);
    EXPECT_EQ(spread_of(grid).middle, 0);
}

TEST(SlopeMap, StopsAtAnyStepWhenAskedTo) {
    const program::Folder folder;
    terrain::Grid<float> heights({20, 20, 5});
    for (std::int64_t i = 0; i < 400; ++i) heights(i / 20, i % 20) = static_cast<float>(i);
    raster::WriteOptions in_metres;
    in_metres.unit = "m";
    const std::string path = folder.path + "/dem.tif";
    raster::write_values(path, heights,
                         {.west = 500000,
                          .north = 4400000,
                          .cell_width = 5,
                          .cell_height = 5,
                          .columns = 20,
                          .rows = 20,
                          .crs = "EPSG:32617"},
                         in_metres);
    std::vector<double> shares;
    slope_map(path, {}, {}, [&](double share) {
        shares.push_back(share);
        return true;
    });
    ASSERT_GE(shares.size(), 5U);
    EXPECT_EQ(shares.front(), 0);
    EXPECT_EQ(shares.back(), 1);
    for (std::size_t stop = 0; stop < shares.size(); ++stop) {
        std::size_t told = 0;
        EXPECT_THROW(slope_map(path, {}, {}, [&](double) { return told++ < stop; }), Stopped);
        EXPECT_EQ(told, stop + 1);
    }
}

}  // namespace
}  // namespace soilhold::watershed
