// Slopes below 15 ft by Handbook 703: where the two steepness forms meet.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "factors/slope.h"
#include "factors/slope_length.h"
#include "factors/slope_steepness.h"

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;

double LS(double percent, double feet) {
    return slope_factor(feet * foot, percent / 100, SlopeMethod::handbook_703, RillRatio::moderate);
}

TEST(ShortSlope, HasNoStepAtFifteenFeet) {
    for (const double percent : {1.0, 9.0, 25.0, 60.0})
        EXPECT_NEAR(LS(percent, 14.999) / LS(percent, 15.0), 1.0, 1e-3) << percent;
}

TEST(ShortSlope, HasTheShortFormAtThreeFeetAndBelow) {
    // S = 3 sin^0.8 + 0.56 at 25 % is 1.526: AH 703 eq. 4-5 read in a reprint.
    const double L = slope_length_factor(15 * foot, length_exponent_703(0.25, RillRatio::moderate));
    EXPECT_NEAR(LS(25, 3) / L, 1.526, 0.0005);
    EXPECT_DOUBLE_EQ(LS(25, 1), LS(25, 3));
}

TEST(ShortSlope, OnGentleGroundKeepsTheUsualFormWhichIsLower) { EXPECT_DOUBLE_EQ(LS(5, 6), LS(5, 15)); }

TEST(ShortSlope, NeverLosesMoreThanALongerOne) {
    EXPECT_TRUE(rc::check("LS does not fall with length", [] {
        const double percent = *rc::gen::inRange(1, 800) / 10.0, feet = *rc::gen::inRange(5, 300) / 10.0;
        RC_ASSERT(LS(percent, feet + 0.5) >= LS(percent, feet) - 1e-12);
    }));
}

}  // namespace
}  // namespace soilhold::factors
