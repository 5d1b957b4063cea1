#include "factors/woodland.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Woodland, RicherFloorsLoseLess) {
    // AH 537 Table 11, from memory: .0001-.001, .002-.004, .003-.009.
    EXPECT_DOUBLE_EQ(woodland_cover_factor(80, 95)->high, 0.001);
    EXPECT_DOUBLE_EQ(woodland_cover_factor(50, 80)->low, 0.002);
    EXPECT_DOUBLE_EQ(woodland_cover_factor(30, 50)->high, 0.009);
}

TEST(Woodland, GroundBelowTheLastBandHasNoValue) {
    EXPECT_FALSE(woodland_cover_factor(10, 10));
    EXPECT_FALSE(undisturbed_forest_cover_factor(10, 10));
    EXPECT_THROW(woodland_cover_factor(120, 50), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
