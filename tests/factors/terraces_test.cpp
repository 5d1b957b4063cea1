#include "factors/terraces.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Terraces, SmallValuesAreForSedimentThatLeavesTheField) {
    // AH 537 Table 15, from memory.
    EXPECT_DOUBLE_EQ(*terrace_factor_537({6, 6}, TerraceUse::contoured_between), 0.5);
    EXPECT_DOUBLE_EQ(*terrace_factor_537({6, 6}, TerraceUse::sediment_by_sod_outlet), 0.1);
}

TEST(Terraces, SteeperChannelsHoldLess) {
    // AH 703 ch. 6, from memory: 0.5, 0.6, 0.7, 1.0 below 110 ft.
    EXPECT_DOUBLE_EQ(*terrace_factor_703({100, 100}, TerraceGrade::closed_outlet), 0.5);
    EXPECT_DOUBLE_EQ(*terrace_factor_703({100, 100}, terrace_grade(0.2)), 0.6);
    EXPECT_DOUBLE_EQ(*terrace_factor_703({100, 100}, terrace_grade(0.5)), 0.7);
    EXPECT_DOUBLE_EQ(*terrace_factor_703({100, 100}, terrace_grade(1.0)), 1.0);
}

TEST(Terraces, NoneBeyondTheirTables) {
    EXPECT_FALSE(terrace_factor_703({400, 400}, TerraceGrade::closed_outlet));
    EXPECT_FALSE(terrace_factor_537({30, 30}, TerraceUse::contoured_between));
    EXPECT_THROW(terrace_grade(-1), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
