#include "factors/aggregate_erodibility.h"

#include <gtest/gtest.h>

namespace soilhold::factors {
namespace {

TEST(AggregateErodibility, UnstableAggregatesRaiseK) {
    // El-Swaify & Dangler 1976, slope from memory: 0.00311 US a per cent.
    VolcanicSoil soil{40, 300, 50, 30, 10};
    const double stable = volcanic_soil_erodibility_us(soil);
    soil.unstable_below_250um_pct = 50;
    EXPECT_NEAR(volcanic_soil_erodibility_us(soil) - stable, 0.0311, 1e-12);
}

TEST(AggregateErodibility, LeavesTheRangeOfKOnOtherSoils) {
    // A pure sand: -0.03970 - 0.00823 x 90, by hand. The equation does not clamp; who uses it must say so.
    EXPECT_NEAR(volcanic_soil_erodibility_us({0, 0, 0, 0, 90}), -0.7804, 1e-9);
}

TEST(AggregateErodibility, OfTheMidwestByHand) {
    // -0.204 + 0.385 x 0.6 - 0.013 x 10 + 0.247 x 1.2 + 0.003 x 40 - 0.005 x 20 = 0.2134; from memory, to be checked.
    EXPECT_NEAR(midwest_soil_erodibility_us({0.6, 10, 1.2, 40, 20}), 0.2134, 1e-9);
}

}  // namespace
}  // namespace soilhold::factors
