#include "rotation/calibration.h"

#include <gtest/gtest.h>

#include "places.h"
#include "rotation/cover_calendar.h"
#include "rotation/rotation_cover.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

const Day after_planting{2, 140};

Rotation chiseled() { return rotation_of_words("corn-soybean, fall chisel"); }

TEST(Calibration, BringsTheCalendarToTheReading) {
    for (const double read : {5.0, 20.0, 30.0, 45.0, 65.0}) {
        const Calibration set = calibrated(chiseled(), corn_belt(), {after_planting, read, {}});
        EXPECT_TRUE(set.met) << read;
        EXPECT_NEAR(set.cover_after_pct, read, 0.5);
        const Calendar calendar = cover_calendar(chiseled(), corn_belt(), set.adjustments, after_planting);
        EXPECT_NEAR(*calendar.probed_cover_pct, read, 0.5);
    }
}

TEST(Calibration, AReadingOfWhatTheCalendarSaysMovesNothing) {
    const double said = *cover_calendar(chiseled(), corn_belt(), {}, after_planting).probed_cover_pct;
    EXPECT_NEAR(calibrated(chiseled(), corn_belt(), {after_planting, said, {}}).factor, 1.0, 1e-3);
}

TEST(Calibration, MoreResidueReadMeansLessLoss) {
    double last = 1;
    for (const double read : {5.0, 20.0, 35.0, 50.0}) {
        const double C =
            cover_of_rotation(chiseled(), corn_belt(), TransectReading{after_planting, read, {}}).C.central;
        EXPECT_LT(C, last);
        last = C;
    }
}

TEST(Calibration, AReadingNarrowsTheDoubt) {
    const double said = *cover_calendar(chiseled(), corn_belt(), {}, after_planting).probed_cover_pct;
    const auto unread = cover_of_rotation(chiseled(), corn_belt()).C;
    const auto read = cover_of_rotation(chiseled(), corn_belt(), TransectReading{after_planting, said, {}}).C;
    EXPECT_LT(read.high / read.low, unread.high / unread.low);
    EXPECT_NEAR(read.central, unread.central, 0.001);
}

TEST(Calibration, SaysWhenTheReadingCanNotBe) {
    // Full cover on ground that was plowed and worked three times that spring and has but thin residue before
    const Calibration set = calibrated(rotation_of_words("corn silage, fall plow"), corn_belt(), {{1, 140}, 100.0, {}});
    EXPECT_FALSE(set.met);
    ASSERT_EQ(set.remarks.size(), 1U);
    EXPECT_EQ(set.remarks[0].code, "residue-reading-unmet");
}

TEST(Calibration, RefusesWhatIsNoReading) {
    EXPECT_THROW(calibrated(chiseled(), corn_belt(), {after_planting, 101, {}}), std::invalid_argument);
    EXPECT_THROW(calibrated(chiseled(), corn_belt(), {{3, 140}, 30, {}}), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::rotation
