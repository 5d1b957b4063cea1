/// Classes of loss by times T, cell by cell, on grids that a reader checks by eye.
#include "watershed/loss_classes.h"

#include <gtest/gtest.h>

#include <vector>

namespace soilhold::watershed {
namespace {

constexpr float none = terrain::no_value;

/// 4 x 1 cells of 100 m; the soil of the first two bears 10 t/ha, that of the third 5, the fourth has none.
Layers made_layers() {
    Layers layers{terrain::Grid<float>({4, 1, 100}, 1), {}, {}, {}, {}, {}};
    layers.soils.list = {{"deep", 0.04F, 10}, {"thin", 0.04F, 5}, {"bare", 0.04F, none}};
    layers.soils.grid = terrain::Grid<std::int32_t>({4, 1, 100}, 0);
    (*layers.soils.grid)(0, 2) = 1;
    (*layers.soils.grid)(0, 3) = 2;
    return layers;
}

const raster::Placement place{
    .west = 0, .north = 100, .cell_width = 100, .cell_height = 100, .columns = 4, .rows = 1, .crs = "", .unit_m = 1};

terrain::Grid<float> losses(const std::vector<float>& values) {
    terrain::Grid<float> grid({4, 1, 100});
    std::ranges::copy(values, grid.values().begin());
    return grid;
}

std::vector<int> numbers(const LossClasses& classes) {
    return {classes.grid.values().begin(), classes.grid.values().end()};
}

TEST(LossClasses, AreByTheToleranceOfTheSoil) {
    const LossClasses classes = loss_classes(losses({4, 10, 10, 10}), made_layers(), place, {});
    EXPECT_TRUE(classes.by_tolerance);
    EXPECT_EQ(numbers(classes), (std::vector{1, 3, 4, 0}));  // 0.4, 1 and 2 times T; no T
    EXPECT_EQ(numbers(loss_classes(losses({5, 40, none, 0}), made_layers(), place, {})), (std::vector{2, 5, 0, 0}));
}

TEST(LossClasses, TakeTheFieldsOwnToleranceWhereItHoldsHalfACell) {
    FieldGiven field;
    field.polygon.parts = {{{{0, 0}, {140, 0}, {140, 100}, {0, 100}}, {}}};
    field.tolerance = 2.5;
    const LossClasses classes = loss_classes(losses({10, 10, 10, 10}), made_layers(), place, std::vector{field});
    EXPECT_EQ(numbers(classes), (std::vector{5, 3, 4, 0}));
}

TEST(LossClasses, AreByTheLossItselfWhereNoToleranceIsKnown) {
    Layers layers = made_layers();
    for (Soil& soil : layers.soils.list) soil.tolerance = none;
    const LossClasses classes = loss_classes(losses({1, 2.5, 19, 20}), layers, place, {});
    EXPECT_FALSE(classes.by_tolerance);
    EXPECT_EQ(numbers(classes), (std::vector{1, 2, 4, 5}));
    EXPECT_EQ(class_words(1, false), "below 2.5 t/(ha yr)");
    EXPECT_EQ(class_words(2, true), "0.5 to 1 times T");
    EXPECT_EQ(class_words(5, true), "4 times T and more");
}

}  // namespace
}  // namespace soilhold::watershed
