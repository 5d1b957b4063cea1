#include "factors/tolerance.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Tolerance, DeeperSoilMayLoseMore) {
    // National Soil Survey Handbook 618.93, read: group 1 has 1, 1, 2, 3, 5.
    EXPECT_DOUBLE_EQ(tolerance_by_depth_us("group 1", {20, 20}), 1);
    EXPECT_DOUBLE_EQ(tolerance_by_depth_us("group 1", {60, 60}), 2);
    EXPECT_DOUBLE_EQ(tolerance_by_depth_us("group 1", {200, 200}), 5);
    EXPECT_DOUBLE_EQ(tolerance_by_depth_us("lithic", {60, 60}), 2);
}

TEST(Tolerance, TheIndexIsTheSameInBothSystemsOfUnits) {
    const double us = land_erodibility_index(200, 0.37, 1.08, 5);
    EXPECT_NEAR(us, 16.0, 0.05);
    EXPECT_NEAR(land_erodibility_index(200 * 17.02, 0.37 * 0.1317, 1.08, 5 * 2.242), us, 0.02);
    EXPECT_GE(us, highly_erodible_index);
}

TEST(Tolerance, WhatCannotBeIsAnError) {
    EXPECT_THROW(land_erodibility_index(200, 0.37, 1.08, 0), std::invalid_argument);
    EXPECT_THROW(tolerance_by_depth_us("gravel", {20, 20}), std::invalid_argument);
    EXPECT_THROW(tolerance_by_depth_us("group 1", {20, 120}), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
