#include "factors/irregular_slope.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>
#include <cmath>
#include <stdexcept>

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;

TEST(IrregularSlope, SharesOfAllSegmentsMakeOne) {
    EXPECT_TRUE(rc::check("any number of segments", [] {
        const int segments = *rc::gen::inRange(1, 12);
        const double m = *rc::gen::inRange(0, 100) / 100.0;
        double sum = 0;
        for (int j = 1; j <= segments; ++j) sum += segment_loss_share(j, segments, m);
        RC_ASSERT(std::abs(sum - 1) < 1e-12);
    }));
}

TEST(IrregularSlope, ConvexLosesMoreThanUniformAndConcaveLess) {
    // AH 537 p. 16-18, from memory, recomputed: 400 ft of 5, 10, 15 %: 3.52; reversed 2.42; uniform 10 % 2.74.
    const std::array<double, 3> convex{0.05, 0.10, 0.15}, concave{0.15, 0.10, 0.05}, uniform{0.10, 0.10, 0.10};
    EXPECT_NEAR(irregular_slope_factor_537(400 * foot, convex, 0.5), 3.52, 0.03);
    EXPECT_NEAR(irregular_slope_factor_537(400 * foot, concave, 0.5), 2.42, 0.02);
    EXPECT_NEAR(irregular_slope_factor_537(400 * foot, uniform, 0.5), 2.74, 0.02);
}

TEST(IrregularSlope, AUniformProfileInPiecesIsTheUniformSlope) {
    const std::array<SlopeSegment, 3> pieces{{{20, 0.07}, {55, 0.07}, {100, 0.07}}};
    const std::array<SlopeSegment, 1> whole{{{100, 0.07}}};
    EXPECT_NEAR(irregular_slope_factor_703(pieces), irregular_slope_factor_703(whole), 1e-12);
}

TEST(IrregularSlope, SegmentsBeyondTheLastAreErrors) {
    EXPECT_THROW(segment_loss_share(4, 3, 0.5), std::invalid_argument);
    EXPECT_THROW(segment_loss_share(0, 3, 0.5), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
