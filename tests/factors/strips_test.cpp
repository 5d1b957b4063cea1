#include "factors/strips.h"

#include <gtest/gtest.h>

namespace soilhold::factors {
namespace {

TEST(Strips, MeadowInTheRotationEarnsTheirCredit) {
    // AH 537 Table 14, from memory: at 6 % 0.25, 0.38, and 0.50 without meadow, which is contouring's.
    EXPECT_DOUBLE_EQ(contour_strips({6, 6}, StripRotation::meadow_two_years)->P, 0.25);
    EXPECT_DOUBLE_EQ(contour_strips({6, 6}, StripRotation::meadow_one_year)->P, 0.38);
    EXPECT_DOUBLE_EQ(contour_strips({6, 6}, StripRotation::no_meadow)->P, 0.50);
}

TEST(Strips, ReachTwiceAsFarAsContouringAlone) {
    EXPECT_NEAR(contour_strips({6, 6}, StripRotation::no_meadow)->length_limit_m / 0.3048, 400, 1e-9);
}

TEST(Strips, NoneOutsideTheirSlopes) {
    EXPECT_FALSE(contour_strips({26, 26}, StripRotation::no_meadow));
    EXPECT_FALSE(contour_strips({0.5, 0.5}, StripRotation::no_meadow));
}

}  // namespace
}  // namespace soilhold::factors
