/// The memory a watershed takes, counted before the work.
#include "watershed/watershed_memory.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "raster/raster_error.h"

namespace soilhold::watershed {
namespace {

using testing::HasSubstr;

input::WatershedFile made_file() {
    input::WatershedFile file;
    file.elevation.map.path = "heights.tif";
    return file;
}

TEST(WatershedMemory, FiguresForTheWholeWatershedTakeNone) {
    input::WatershedFile file = made_file();
    const double bare = bytes_a_cell(file);
    file.rain.erosivity = input::OneFigure{3000, {}};
    EXPECT_EQ(bytes_a_cell(file), bare);
    file.rain.raster = file.soils.map = file.practice.raster = input::MapFile{};
    file.cover.rasters.resize(3);
    file.cover.classes[1] = {};
    file.soils.key = "unit";
    EXPECT_GE(bytes_a_cell(file), bare + 10);
}

TEST(WatershedMemory, TooLittleIsToldWithTheCellThatWouldFit) {
    const input::WatershedFile file = made_file();
    const std::int64_t cells = 400'000'000;
    const std::int64_t need = memory_needed(file, cells);
    EXPECT_NO_THROW(check_memory(file, cells, 1, need));
    try {
        check_memory(file, cells, 1, 3'000'000'000);
        FAIL() << "not refused";
    } catch (const raster::RasterError& error) {
        EXPECT_EQ(error.code(), "too-little-memory");
        EXPECT_THAT(error.what(), HasSubstr("'cell: 1.9 m' under 'elevation'"));  // sqrt(10 GB / 2.8 GB) = 1.89
        EXPECT_THAT(error.what(), HasSubstr("400 million cells of 1 m take about 10.2 GB"));
    }
    // What it says is enough.
    EXPECT_NO_THROW(check_memory(file, static_cast<std::int64_t>(cells / 1.9 / 1.9), 1.9, 3'000'000'000));
    EXPECT_THROW(check_memory(file, 100, 1, 1'000'000), raster::RasterError);
}

}  // namespace
}  // namespace soilhold::watershed
