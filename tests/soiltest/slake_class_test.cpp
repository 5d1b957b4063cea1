#include "soiltest/slake_class.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "handbook/row_file.h"

namespace soilhold::soiltest {
namespace {

/// aggregate-slake-classes.csv: Herrick et al. 2001, rules as read in a reprint.
class SlakeClassRow : public testing::TestWithParam<rows::Row> {};

TEST_P(SlakeClassRow, MiddleAndEndsOfTheRangeGiveTheClass) {
    const rows::Row& row = GetParam();
    const int expected = static_cast<int>(row.value("class"));
    bool checked = false;
    if (!row.empty("criterion_time_s_min")) {
        const double from = row.value("criterion_time_s_min"), to = row.value("criterion_time_s_max");
        EXPECT_EQ(slake_class_from(0.5 * (from + to), {}), expected);
        EXPECT_EQ(slake_class_from(to, {}), expected) << "half gone within " << to << " s";
        checked = true;
    }
    if (!row.empty("retained_pct_after_5_dips_min")) {
        const double from = row.value("retained_pct_after_5_dips_min"), to = row.value("retained_pct_after_5_dips_max");
        EXPECT_EQ(slake_class_from({}, 0.5 * (from + to)), expected);
        EXPECT_EQ(slake_class_from({}, from), expected);
        checked = true;
    }
    if (!checked) {  // class 0 is seen before the water
        EXPECT_EQ(expected, 0);
        EXPECT_NE(words_for_slake_class(0).find("before"), std::string::npos);
    }
}

INSTANTIATE_TEST_SUITE_P(Rows, SlakeClassRow, testing::ValuesIn(rows::read("aggregate-slake-classes.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(SlakeClass, AClodThatFadesAfterFiveMinutesIsScoredByWhatIsLeft) {
    EXPECT_EQ(slake_class_from(400.0, 60.0), 5);
    EXPECT_EQ(slake_class_from(400.0, 9.9), 3);
}

TEST(SlakeClass, SpeedDecidesBeforeTheRest) { EXPECT_EQ(slake_class_from(20.0, 60.0), 2); }

TEST(SlakeClass, AStableClodIsMostlyWholeAfterMinutes) {
    // Common practice, no source: a stable clod stays mostly whole for minutes, a weak one is gone in seconds.
    EXPECT_EQ(slake_class_from({}, 90.0), 6);
    EXPECT_LE(slake_class_from(15.0, {}), 2);
}

TEST(SlakeClass, WhatCannotBeSeenIsRefused) {
    EXPECT_THROW(slake_class_from(-1.0, {}), std::invalid_argument);
    EXPECT_THROW(slake_class_from({}, 101.0), std::invalid_argument);
    EXPECT_THROW(slake_class_from({}, {}), std::invalid_argument);
    EXPECT_THROW(slake_class_from(400.0, {}), std::invalid_argument);
    EXPECT_THROW(words_for_slake_class(7), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::soiltest
