#include "factors/gauge_record.h"

#include <gmock/gmock.h>

#include <numeric>
#include <stdexcept>

namespace soilhold::factors {
namespace {

constexpr double day = 1440.0;
// Days since 1970-01-01, from a calendar: 2021-01-01 is day 18628, 2022-01-01 day 18993.
constexpr double new_year_2021 = 18628 * day;
constexpr double new_year_2022 = 18993 * day;

/// A logger that works every hour of 2021, with a storm of 20 mm in one hour on each of the days given.
std::vector<Reading> year_with_storms(const std::vector<int>& days, double interval_min) {
    std::vector<Reading> readings;
    for (double end = new_year_2021 + interval_min; end <= new_year_2022; end += interval_min)
        readings.push_back({end, 0.0});
    for (const int one : days)
        readings[static_cast<std::size_t>(one * day / interval_min)].depth_mm = 20.0 * interval_min / 60.0;
    return readings;
}

std::vector<std::string> codes(const RecordErosivity& result) {
    std::vector<std::string> all;
    for (const source::Remark& remark : result.remarks) all.push_back(remark.code);
    return all;
}

TEST(GaugeRecord, IntervalFactorsAreThoseRead) {
    // Yin et al. 2007, Catena 70:306-312, read: EI30 x 1.014 for 5 minutes, x 1.730 for 60.
    EXPECT_NEAR(interval_factor(5), 1.014, 1e-9);
    EXPECT_NEAR(interval_factor(60), 1.730, 1e-9);
    EXPECT_DOUBLE_EQ(interval_factor(1), 1.0);
    EXPECT_GT(interval_factor(15), interval_factor(5));
    EXPECT_LT(interval_factor(15), interval_factor(60));
    EXPECT_THROW(interval_factor(61), std::invalid_argument);
    EXPECT_THROW(interval_factor(1440), std::invalid_argument);
    EXPECT_THROW(interval_factor(0), std::invalid_argument);
}

TEST(GaugeRecord, AFullYearGivesTheSumOfItsStorms) {
    const auto record = record_of_readings(year_with_storms({40, 200}, 60), 60);
    const RecordErosivity result = erosivity_of_record(record);
    ASSERT_EQ(result.storms.size(), 2U);
    EXPECT_TRUE(result.storms[0].counted);
    ASSERT_EQ(result.years.size(), 1U);
    EXPECT_EQ(result.years[0].year, 2021);
    EXPECT_DOUBLE_EQ(result.years[0].recorded_share, 1.0);
    // 20 mm in an hour: I30 20 mm/h, e = 0.29 (1 - 0.72 exp(-0.05 20)) = 0.213187 by hand; two storms; x 1.730.
    ASSERT_TRUE(result.R_brown_foster);
    EXPECT_NEAR(*result.R_brown_foster, 2 * 20 * 20 * 0.213187 * 1.730, 0.01);
    EXPECT_THAT(codes(result), testing::ElementsAre("record-short", "record-interval"));
}

TEST(GaugeRecord, HalfMonthsAddUpToTheYear) {
    // Day 40 of the year (counted from 0) is 10 February, day 200 is 20 July.
    const RecordErosivity result = erosivity_of_record(record_of_readings(year_with_storms({40, 200}, 60), 60));
    EXPECT_NEAR(result.half_month_share[2], 0.5, 1e-9);
    EXPECT_NEAR(result.half_month_share[13], 0.5, 1e-9);
    EXPECT_NEAR(std::accumulate(result.half_month_share.begin(), result.half_month_share.end(), 0.0), 1.0, 1e-12);
}

TEST(GaugeRecord, WhatIsMissingIsNeverReadAsDry) {
    auto readings = year_with_storms({40, 200}, 60);
    for (std::size_t i = 100 * 24; i < 130 * 24; ++i) readings[i].depth_mm.reset();
    const RecordErosivity result = erosivity_of_record(record_of_readings(readings, 60));
    EXPECT_NEAR(result.missing_days, 30, 1e-9);
    EXPECT_NEAR(result.years[0].recorded_share, 335.0 / 365.0, 1e-9);
    EXPECT_FALSE(result.R_brown_foster);
    EXPECT_THAT(codes(result), testing::IsSupersetOf({"record-missing", "record-no-full-year"}));
}

TEST(GaugeRecord, IntervalsThatNoReadingStandsForAreMissingUnlessSaidOtherwise) {
    const std::vector<Reading> readings{{60, 1.0}, {120, 0.0}, {300, 2.0}};
    EXPECT_THAT(record_of_readings(readings, 60).missing, testing::ElementsAre(Period{120, 240}));
    EXPECT_THAT(record_of_readings(readings, 60, Unlisted::dry).missing, testing::IsEmpty());
}

TEST(GaugeRecord, AMissingPeriodEndsAStormAndMarksIt) {
    // Half the storm, an hour unknown, the other half.
    const std::vector<Reading> readings{{60, 20.0}, {120, std::nullopt}, {180, 20.0}, {240, 0.0}};
    const RecordErosivity result = erosivity_of_record(record_of_readings(readings, 60));
    ASSERT_EQ(result.storms.size(), 2U);
    EXPECT_TRUE(result.storms[0].cut_short);
    EXPECT_TRUE(result.storms[1].cut_short);
}

TEST(GaugeRecord, SmallStormsAreListedButNotSummed) {
    auto readings = year_with_storms({40}, 60);
    readings[300 * 24].depth_mm = 3.0;
    const RecordErosivity result = erosivity_of_record(record_of_readings(readings, 60));
    ASSERT_EQ(result.storms.size(), 2U);
    EXPECT_FALSE(result.storms[1].counted);
    EXPECT_NEAR(result.years[0].rain_mm, 23, 1e-9);
    EXPECT_EQ(result.years[0].storms, 1);
}

TEST(GaugeRecord, RainOfATipFellSinceTheTipBefore) {
    const GaugeRecord record = record_of_tips({{100, 0.2}, {110, 0.2}, {110, 0.2}, {500, 0.2}});
    ASSERT_EQ(record.rain.size(), 3U);
    EXPECT_DOUBLE_EQ(record.rain[1].start_min, 100);
    EXPECT_DOUBLE_EQ(record.rain[1].depth_mm, 0.4);
    EXPECT_DOUBLE_EQ(record.rain[2].start_min, 499);  // after a long pause: a minute
}

TEST(GaugeRecord, ATipDoesNotReachBackIntoWhatWasMissing) {
    const GaugeRecord record = record_of_tips({{100, 0.2}, {130, 0.2}}, {{105, 125}});
    EXPECT_DOUBLE_EQ(record.rain[1].start_min, 125);
}

TEST(GaugeRecord, BreakpointsAndTheSameRainByMinutesAgree) {
    const RecordErosivity chart = erosivity_of_record(record_of_breakpoints({{0, 0}, {20, 4}, {30, 16}, {90, 20}}));
    std::vector<Reading> minutes;
    for (int i = 1; i <= 90; ++i) minutes.push_back({double(i), i <= 20 ? 0.2 : i <= 30 ? 1.2 : 4.0 / 60});
    const RecordErosivity logger = erosivity_of_record(record_of_readings(minutes, 1));
    ASSERT_EQ(chart.storms.size(), 1U);
    EXPECT_NEAR(chart.storms[0].storm.EI30_537(), logger.storms.at(0).storm.EI30_537(), 1e-9);
    EXPECT_NEAR(chart.storms[0].storm.I30_mm_per_h, logger.storms[0].storm.I30_mm_per_h, 1e-9);
}

TEST(GaugeRecord, RecordsThatCannotBeRightAreErrors) {
    EXPECT_THROW(record_of_tips({{10, 0.2}, {5, 0.2}}), std::invalid_argument);
    EXPECT_THROW(record_of_tips({{10, -9}}), std::invalid_argument);
    EXPECT_THROW(record_of_tips({{10, 0.2}}, {{8, 7}}), std::invalid_argument);
    EXPECT_THROW(record_of_breakpoints({{0, 1}, {10, 0.5}}), std::invalid_argument);
    EXPECT_THROW(record_of_readings({{60, 1.0}, {90, 1.0}}, 60), std::invalid_argument);
    EXPECT_THROW(record_of_readings({{60, -9999.0}}, 60), std::invalid_argument);
    EXPECT_THROW(record_of_readings({}, 0), std::invalid_argument);
}

TEST(GaugeRecord, AnEmptyRecordGivesNothing) {
    const RecordErosivity result = erosivity_of_record(record_of_tips({}));
    EXPECT_TRUE(result.storms.empty());
    EXPECT_FALSE(result.R_537);
}

}  // namespace
}  // namespace soilhold::factors
