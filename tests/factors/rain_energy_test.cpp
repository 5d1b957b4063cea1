#include "factors/rain_energy.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

namespace soilhold::factors {
namespace {

TEST(RainEnergy, OfHandbook537StopsGrowingAtThreeInchesAnHour) {
    // AH 537 appendix, from memory: 1074 ft tonf/(acre in) and 0.283 MJ/(ha mm).
    EXPECT_NEAR(unit_energy_537_us(3), 1074, 0.5);
    EXPECT_DOUBLE_EQ(unit_energy_537_us(8), unit_energy_537_us(3.1));
    EXPECT_DOUBLE_EQ(unit_energy_537(200), 0.283);
}

TEST(RainEnergy, OfHandbook537DoesNotFallBelowNothing) {
    EXPECT_DOUBLE_EQ(unit_energy_537(0), 0);
    EXPECT_DOUBLE_EQ(unit_energy_537(0.01), 0);
    EXPECT_DOUBLE_EQ(unit_energy_537_us(0.001), 0);
}

TEST(RainEnergy, BothUnitsOfACurveAgree) {
    // 2.638e-4 MJ/(ha mm) per ft tonf/(acre in), by definition of the units.
    EXPECT_TRUE(rc::check("within the rounding of the printed coefficients", [] {
        const double mm = *rc::gen::inRange(5, 1500) / 10.0;
        RC_ASSERT(std::abs(unit_energy_537_us(mm / 25.4) * 2.638e-4 / unit_energy_537(mm) - 1) < 0.01);
        RC_ASSERT(std::abs(unit_energy_brown_foster_us(mm / 25.4) * 2.638e-4 / unit_energy_brown_foster(mm) - 1) <
                  0.02);
    }));
}

}  // namespace
}  // namespace soilhold::factors
