#include "factors/storm.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

namespace soilhold::factors {
namespace {

const std::vector<GaugeReading> even_hour{{0, 0}, {60, 30}};

TEST(Storm, I30OfEvenRainIsItsIntensity) {
    EXPECT_NEAR(half_hour_intensity_mm_h(greatest_depth_mm(even_hour, 30)), 30, 1e-12);
}

TEST(Storm, ReadsBetweenThePointsOfTheChart) {
    // 10 mm in the middle 20 minutes of an hour, 2 mm before and after: the best half hour holds 10 + 1 mm.
    const std::vector<GaugeReading> burst{{0, 0}, {20, 2}, {40, 12}, {60, 14}};
    EXPECT_NEAR(greatest_depth_mm(burst, 30), 11, 1e-12);
}

TEST(Storm, AShortOneHasTwiceItsDepth) {
    const std::vector<GaugeReading> ten_minutes{{0, 0}, {10, 8}};
    EXPECT_NEAR(half_hour_intensity_mm_h(greatest_depth_mm(ten_minutes, 30)), 16, 1e-12);
}

TEST(Storm, CountsByDepthOrByItsBestQuarterHour) {
    EXPECT_TRUE(storm_counts(12.7, 0));
    EXPECT_TRUE(storm_counts(7, 6.35));
    EXPECT_FALSE(storm_counts(12.6, 6.3));
}

TEST(Storm, ChartsThatCannotBeRightAreErrors) {
    EXPECT_THROW(storm_depth_mm(std::vector<GaugeReading>{{0, 0}}), std::invalid_argument);
    EXPECT_THROW(storm_depth_mm(std::vector<GaugeReading>{{0, 0}, {0, 1}}), std::invalid_argument);
    EXPECT_THROW(storm_depth_mm(std::vector<GaugeReading>{{0, 1}, {5, 0}}), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
