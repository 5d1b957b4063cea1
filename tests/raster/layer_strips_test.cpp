#include "raster/layer_strips.h"

#include <gtest/gtest.h>

#include <cmath>

#include "program.h"
#include "raster/made_rasters.h"
#include "raster/refusal.h"
#include "terrain/strips.h"

namespace soilhold::raster {
namespace {

using program::Folder;

Placement grid(std::int64_t columns, std::int64_t rows, double west = 500000, double north = 4400000) {
    return {.west = west,
            .north = north,
            .cell_width = 10,
            .cell_height = 10,
            .columns = columns,
            .rows = rows,
            .crs = "EPSG:32617"};
}

/// Row by row, whatever the strips.
terrain::Grid<float> read_strips(LayerStrips& strips, const Placement& placement) {
    terrain::Grid<float> all(shape_of(placement));
    for (std::int64_t row = 0; row < placement.rows; row += 256) {
        terrain::Grid<float> strip({placement.columns, std::min<std::int64_t>(256, placement.rows - row), 10});
        strips.read(row, strip);
        std::copy(strip.values().begin(), strip.values().end(), &all(row, 0));
    }
    return all;
}

bool same(const terrain::Grid<float>& one, const terrain::Grid<float>& other) {
    for (std::size_t i = 0; i < one.values().size(); ++i) {
        const float a = one.values()[i], b = other.values()[i];
        if (!(a == b || (std::isnan(a) && std::isnan(b)))) return false;
    }
    return one.shape() == other.shape();
}

Made slanted(int columns, int rows) {
    Made made{.columns = columns, .nodata = -9};
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
            made.values.push_back((row * 7 + column) % 11 == 0 ? -9 : row + 0.25 * column);
    return made;
}

TEST(LayerStrips, ReadTheGridsOwnCellsTimesTheirUnit) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", slanted(5, 300));
    LayerStrips strips(path, grid(5, 300), Between::average, {}, 2, folder.path);
    const auto all = read_strips(strips, grid(5, 300));
    EXPECT_EQ(all(299, 4), 2 * (299 + 1.0F));
    EXPECT_TRUE(std::isnan(all(0, 0)));
    ASSERT_EQ(strips.lacks().size(), 1U);
    EXPECT_EQ(strips.lacks()[0].code, "no-value-cells");
}

TEST(LayerStrips, ReadAGridThatIsCutFromTheRasterOrReachesBeyondIt) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", slanted(6, 8));
    const auto inside = grid(2, 3, 500010, 4399980);  // from row 2, column 1 on
    LayerStrips cut(path, inside, Between::bilinear, {}, 1, folder.path);
    EXPECT_EQ(read_strips(cut, inside)(2, 1), 4 + 0.5F);
    const auto beyond = grid(8, 4, 499990, 4399950);  // column -1, row 5
    LayerStrips part(path, beyond, Between::bilinear, {}, 1, folder.path);
    const auto all = read_strips(part, beyond);
    EXPECT_TRUE(std::isnan(all(0, 0)));
    EXPECT_EQ(all(0, 1), 5);
    EXPECT_TRUE(std::isnan(all(3, 1)));
    EXPECT_TRUE(std::isnan(all(0, 7)));
}

TEST(LayerStrips, BringAnotherGridAsTheWholeIsBrought) {
    Folder folder;
    Made made = slanted(90, 90);
    made.width = 7, made.height = -7;
    const std::string path = make_raster(folder.path + "/a.tif", made);
    for (const Between how : {Between::bilinear, Between::average}) {
        LayerStrips strips(path, grid(60, 60), how, {}, 1, folder.path);
        EXPECT_TRUE(same(read_strips(strips, grid(60, 60)), values_onto(path, grid(60, 60), how).grid));
    }
}

TEST(LayerStrips, RefuseARasterOfAnotherPlace) {
    Folder folder;
    const std::string path = make_raster(folder.path + "/a.tif", slanted(5, 5));
    const auto far = grid(5, 5, 600000);
    EXPECT_EQ(refusal([&] {
                  LayerStrips strips(path, far, Between::average, {}, 1, folder.path);
                  read_strips(strips, far);
                  strips.lacks();
              }).code(),
              "not-here");
}

}  // namespace
}  // namespace soilhold::raster
