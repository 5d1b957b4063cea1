#include "factors/mulch.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Mulch, ItsCComesWithTheLengthToWhichItHolds) {
    // AH 537 Table 9, from memory: two tons of straw on 8 %: 0.06 up to 200 ft.
    const MulchCover straw = construction_mulch("straw or hay tied", 2.0, {8, 8});
    EXPECT_DOUBLE_EQ(straw.C, 0.06);
    ASSERT_TRUE(straw.length_limit_m);
    EXPECT_NEAR(*straw.length_limit_m / 0.3048, 200, 1e-9);
    EXPECT_FALSE(construction_mulch("none", 0, {8, 8}).length_limit_m);
}

TEST(Mulch, RowsTheTableLacksAreErrors) {
    EXPECT_THROW(construction_mulch("straw or hay tied", 7.0, {8, 8}), std::invalid_argument);
    EXPECT_THROW(construction_mulch("confetti", 2.0, {8, 8}), std::invalid_argument);
    EXPECT_THROW(construction_mulch("straw or hay tied", 1.0, {30, 30}), std::invalid_argument);
}

TEST(Mulch, ListsOfSiteCoversAreKeptApart) {
    EXPECT_NO_THROW(site_cover_factor("goldman", "native vegetation undisturbed"));
    EXPECT_THROW(site_cover_factor("goldman", "competent gravel layer"), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
