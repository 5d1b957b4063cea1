#include "factors/long_term_erosivity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>

namespace soilhold::factors {
namespace {

constexpr double day = 1440.0;
constexpr double october_2015 = 16709.0 * day;  // 2015-10-01: 16 709 days after 1970-01-01, counted on a calendar

/// One storm of 20 mm in an hour on the tenth day of each month of 30 days.
GaugeRecord twelve_months(double days) {
    GaugeRecord record;
    record.whole = {october_2015, october_2015 + days * day};
    for (double at = 10.0; at < days; at += 30.0)
        record.rain.push_back({october_2015 + at * day, october_2015 + at * day + 60.0, 20.0});
    return record;
}

TEST(LongTermErosivity, OfOneYearReachesFromHalfToTwice) {
    double variation = 0.0;
    const spread::Interval R = mean_of_years({1000.0}, variation);
    EXPECT_DOUBLE_EQ(R.central, 1000.0);
    EXPECT_DOUBLE_EQ(variation, 0.45);
    // t(0.90, 4) = 1.533 (table of Student's t); sqrt(ln(1 + 0.45^2)) = 0.4294; exp(1.533 x 0.4294) = 1.931
    EXPECT_NEAR(R.high, 1931.0, 2.0);
    EXPECT_NEAR(R.low, 1000.0 / 1.931, 2.0);
}

TEST(LongTermErosivity, GrowsSurerWithYears) {
    double variation = 0.0, last = 10.0;
    std::vector<double> years;
    for (int n = 2; n <= 40; n += 2) {
        years.push_back(600.0);
        years.push_back(1400.0);
        const spread::Interval R = mean_of_years(years, variation);
        EXPECT_LT(R.high / R.low, last) << n;
        last = R.high / R.low;
    }
    EXPECT_LT(last, 1.3);
}

TEST(LongTermErosivity, HoldsTheTrueMeanInAboutEightyOfAHundredRecords) {
    // Ten years drawn from a lognormal of mean 1000 and coefficient of variation 0.5, two thousand times.
    std::mt19937_64 random(7);
    const double sigma = std::sqrt(std::log(1.25));
    std::lognormal_distribution<double> year(std::log(1000.0) - 0.5 * sigma * sigma, sigma);
    int held = 0;
    for (int trial = 0; trial < 2000; ++trial) {
        std::vector<double> years(10);
        for (double& value : years) value = year(random);
        double variation = 0.0;
        const spread::Interval R = mean_of_years(years, variation);
        if (R.low <= 1000.0 && 1000.0 <= R.high) ++held;
    }
    EXPECT_NEAR(held / 2000.0, 0.80, 0.04);
}

TEST(LongTermErosivity, TakesTwelveMonthsWhereNoCalendarYearIsWhole) {
    const GaugeRecord record = twelve_months(366.0);  // to 2016-10-01
    const RecordErosivity result = erosivity_of_record(record);
    EXPECT_FALSE(result.R_brown_foster);
    const auto R = long_term_erosivity(record, result);
    ASSERT_TRUE(R);
    EXPECT_FALSE(R->calendar_years);
    ASSERT_EQ(R->years.size(), 1U);
    double sum = 0.0;
    for (const JudgedStorm& one : result.storms) sum += one.storm.EI30_brown_foster();
    EXPECT_NEAR(R->R_brown_foster.central, sum, 1e-9 * sum);
}

TEST(LongTermErosivity, OfHalfAYearIsNotGiven) {
    const GaugeRecord record = twelve_months(180.0);
    EXPECT_FALSE(long_term_erosivity(record, erosivity_of_record(record)));
}

TEST(LongTermErosivity, OfAYearWithAMonthMissingIsNotGiven) {
    GaugeRecord record = twelve_months(366.0);
    record.missing.push_back({october_2015 + 100 * day, october_2015 + 130 * day});
    std::erase_if(record.rain, [](const RainInterval& one) {
        return one.start_min > october_2015 + 99 * day && one.start_min < october_2015 + 131 * day;
    });
    EXPECT_FALSE(long_term_erosivity(record, erosivity_of_record(record)));
}

TEST(LongTermErosivity, OfDryYearsIsNotGiven) {
    GaugeRecord record;
    record.whole = {october_2015, october_2015 + 800 * day};
    EXPECT_FALSE(long_term_erosivity(record, erosivity_of_record(record)));
    double variation = 0.0;
    EXPECT_THROW(mean_of_years({}, variation), std::invalid_argument);
    EXPECT_THROW(mean_of_years({0.0}, variation), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
