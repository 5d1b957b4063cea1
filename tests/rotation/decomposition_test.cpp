#include "rotation/decomposition.h"

#include <gtest/gtest.h>

namespace soilhold::rotation {
namespace {

TEST(Decomposition, StopsInFrostAndIsFastestAt32Degrees) {
    EXPECT_EQ(warmth_of_rot(-7.8), 0.0);
    EXPECT_NEAR(warmth_of_rot(32.0), 1.0, 1e-12);  // F(To) = 2 - 1
    EXPECT_LT(warmth_of_rot(10.0), warmth_of_rot(20.0));
    EXPECT_LT(warmth_of_rot(45.0), 1.0);
}

TEST(Decomposition, ByHandAt22Degrees) {
    // By hand: (29.8/39.8)^2 = 0.56062; 2 x 0.56062 - 0.56062^2 = 0.80695
    EXPECT_NEAR(warmth_of_rot(22.0), 0.80695, 2e-5);
    EXPECT_NEAR(moisture_of_rot(33.02), 0.5, 1e-12);  // half of 66.04 mm
    EXPECT_NEAR(rot_per_day(0.016, 22.0, 33.02), 0.008, 1e-12);
}

}  // namespace
}  // namespace soilhold::rotation
