#include "rotation/climate.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <numeric>

#include "places.h"

namespace soilhold::rotation {
namespace {

double sum(const ByHalfMonth& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

TEST(Climate, MonthsKeepTheirSums) {
    const ByHalfMonth halves = half_months_of_sums({31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31});
    EXPECT_NEAR(halves[0], 15, 1e-12);
    EXPECT_NEAR(halves[3], 13, 1e-12);  // 16 to 28 February
    EXPECT_NEAR(sum(halves), 365, 1e-9);
}

TEST(Climate, MeansLeanTowardsTheNeighbours) {
    const ByHalfMonth halves = half_months_of_means({0, 4, 8, 12, 16, 20, 24, 20, 16, 12, 8, 4});
    EXPECT_DOUBLE_EQ(halves[2], 3);
    EXPECT_DOUBLE_EQ(halves[3], 5);
    EXPECT_DOUBLE_EQ(halves[12], 23);
}

TEST(Climate, TheWaveIsColdestOnItsDay) {
    const ByHalfMonth wave = temperature_wave(10, 15, 20);
    EXPECT_NEAR(*std::min_element(wave.begin(), wave.end()), -5, 0.1);
    EXPECT_NEAR(*std::max_element(wave.begin(), wave.end()), 25, 0.1);
    EXPECT_LT(wave[1], wave[12]);
}

TEST(Climate, SquaresOfRainGiveTheWetMonthMore) {
    ByMonth rain{};
    rain.fill(10);
    rain[5] = 30;
    const ByHalfMonth shares = erosivity_by_rain_squared(rain);
    EXPECT_NEAR(sum(shares), 1, 1e-12);
    EXPECT_NEAR(shares[10] + shares[11], 900.0 / 2000.0, 1e-12);
    EXPECT_NEAR(erosivity_by_rain(half_months_of_sums(rain))[10], 15.0 / 140.0, 1e-12);
}

TEST(Climate, NothingIsMadeUp) {
    Weather weather = corn_belt_weather();
    weather.month_temperature_C.reset();
    EXPECT_THROW(climate_of(weather), std::invalid_argument);
    weather = corn_belt_weather();
    weather.month_rain_mm.reset();
    EXPECT_THROW(climate_of(weather), std::invalid_argument);
    weather = corn_belt_weather();
    weather.erosivity = 0;
    EXPECT_THROW(climate_of(weather), std::invalid_argument);
    weather = corn_belt_weather();
    (*weather.erosivity_share)[3] += 0.1;
    EXPECT_THROW(climate_of(weather), std::invalid_argument);
}

TEST(Climate, AStandInSaysSo) {
    Weather weather = corn_belt_weather();
    EXPECT_TRUE(climate_of(weather).remarks.empty());
    weather.erosivity_share.reset();
    const Climate climate = climate_of(weather);
    ASSERT_EQ(climate.remarks.size(), 1U);
    EXPECT_EQ(climate.remarks[0].code, "erosivity-by-rain-squared");
    EXPECT_EQ(climate.erosivity_origin.standing, source::Standing::our_assumption);
}

}  // namespace
}  // namespace soilhold::rotation
