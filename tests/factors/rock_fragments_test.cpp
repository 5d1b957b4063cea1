#include "factors/rock_fragments.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(RockFragments, BelowFifteenPercentTheyDoNotCount) {
    // National Soil Survey Handbook 618.59 D(7), read.
    EXPECT_DOUBLE_EQ(whole_soil_erodibility(0.32, 14.9), 0.32);
    EXPECT_NEAR(whole_soil_erodibility(0.32, 15), 0.32 * 0.68, 1e-12);
}

TEST(RockFragments, MisprintedCellsFollowTheFactor) {
    // The printed grid has .37, .12 and .14; its own factor gives these.
    EXPECT_NEAR(whole_soil_erodibility(0.55, 20), 0.34, 0.005);
    EXPECT_NEAR(whole_soil_erodibility(0.55, 55), 0.14, 0.005);
    EXPECT_NEAR(whole_soil_erodibility(0.64, 55), 0.17, 0.005);
}

TEST(RockFragments, MoreStonesNeverRaiseK) {
    EXPECT_TRUE(rc::check("0 to 100 %", [] {
        const double volume = *rc::gen::inRange(0, 990) / 10.0;
        RC_ASSERT(rock_mulch_factor(volume + 1) <= rock_mulch_factor(volume));
        RC_ASSERT(rock_mulch_factor(volume) > 0);
        RC_ASSERT(rock_mulch_factor(volume) <= 1);
    }));
}

TEST(RockFragments, VolumesOutsideAHundredPercentAreErrors) {
    EXPECT_THROW(rock_mulch_factor(-1), std::invalid_argument);
    EXPECT_THROW(rock_mulch_factor(101), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
