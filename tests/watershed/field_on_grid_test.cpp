#include "watershed/field_on_grid.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <limits>

namespace soilhold::watershed {
namespace {

using raster::Share;

constexpr float none = std::numeric_limits<float>::quiet_NaN();

/// 2 rows of 3 cells of 10 m (0.01 ha).
terrain::Grid<float> made_loss() {
    terrain::Grid<float> loss({3, 2, 10.0}, 0.0F);
    const float values[2][3] = {{1, 2, 3}, {4, none, 10}};
    for (int r = 0; r < 2; ++r)
        for (int c = 0; c < 3; ++c) loss(r, c) = values[r][c];
    return loss;
}

TEST(FieldOnGrid, CountsPartlyCoveredCellsByTheirPart) {
    // 1 x 1 + 2 x 0.5 + 4 x 0.25 = 3 over 1.75 cells, by hand
    const std::vector<Share> shares = {{0, 0, 1, 1.0}, {0, 1, 1, 0.5}, {1, 0, 1, 0.25}};
    const FieldOnGrid field = field_on_grid(made_loss(), shares, 3.0);
    EXPECT_NEAR(field.mean, 3 / 1.75, 1e-12);
    EXPECT_NEAR(field.area_ha, 0.0175, 1e-12);
    EXPECT_NEAR(field.total_t, 3 * 0.01, 1e-12);
    EXPECT_NEAR(field.share_above_T, 0.25 / 1.75, 1e-12);
    EXPECT_NEAR(field.share_above_2T, 0, 1e-12);
    EXPECT_NEAR(field.gap_share, 0, 1e-12);
}

TEST(FieldOnGrid, AGapIsNoGroundWithoutLoss) {
    const std::vector<Share> shares = {{1, 0, 3, 1.0}};
    const FieldOnGrid field = field_on_grid(made_loss(), shares, {});
    EXPECT_NEAR(field.mean, 7, 1e-12);  // (4 + 10) / 2, not / 3
    EXPECT_NEAR(field.gap_share, 1.0 / 3, 1e-12);
    EXPECT_NEAR(field.total_t, 7 * 0.03, 1e-12);
}

TEST(FieldOnGrid, WithoutAnyValueIsAllGap) {
    const std::vector<Share> shares = {{1, 1, 1, 0.4}};
    const FieldOnGrid field = field_on_grid(made_loss(), shares, 3.0);
    EXPECT_EQ(field.gap_share, 1);
    EXPECT_EQ(field.total_t, 0);
    EXPECT_NEAR(field.area_ha, 0.004, 1e-12);
}

TEST(FieldOnGrid, WorstTenthIsATenthOfTheAreaAndSaysWhere) {
    // Five valued cells: a tenth is half a cell of 10 t/ha, in the south-east corner; 5 of 20 tons.
    const std::vector<Share> shares = {{0, 0, 3, 1.0}, {1, 0, 3, 1.0}};
    const FieldOnGrid field = field_on_grid(made_loss(), shares, {});
    EXPECT_NEAR(field.worst_tenth_mean, 10, 1e-12);
    EXPECT_NEAR(field.worst_tenth_share, 0.25, 1e-12);
    EXPECT_EQ(field.worst_tenth, (raster::Point{2.5, 1.5}));
}

TEST(FieldOnGrid, OfTwoHalvesIsTheWhole) {
    EXPECT_TRUE(rc::check("any cut of any grid", [] {
        terrain::Grid<float> loss({6, 5, 10.0}, 0.0F);
        for (float& value : loss.values()) value = static_cast<float>(*rc::gen::inRange(0, 1000)) / 10;
        const int cut = *rc::gen::inRange(1, 5);
        std::vector<Share> north, south, whole;
        for (int r = 0; r < 5; ++r) {
            (r < cut ? north : south).push_back({r, 0, 6, 0.7});
            whole.push_back({r, 0, 6, 0.7});
        }
        const double parts = field_on_grid(loss, north, {}).total_t + field_on_grid(loss, south, {}).total_t;
        RC_ASSERT(std::abs(parts - field_on_grid(loss, whole, {}).total_t) < 1e-9);
    }));
}

TEST(FieldOnGrid, APlaceInAFieldHasAName) {
    const std::vector<raster::Part> parts = {{{{0, 0}, {300, 0}, {300, 90}, {0, 90}}, {}}};
    EXPECT_EQ(ninth_of({10, 80}, parts), "north-west");
    EXPECT_EQ(ninth_of({150, 45}, parts), "middle");
    EXPECT_EQ(ninth_of({290, 45}, parts), "east");
    EXPECT_EQ(ninth_of({150, 5}, parts), "south");
}

}  // namespace
}  // namespace soilhold::watershed
