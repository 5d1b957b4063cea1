#include "factors/slope.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "factors/slope_length.h"
#include "factors/slope_steepness.h"

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;

double LS(double percent, double feet, SlopeMethod method = SlopeMethod::handbook_703,
          RillRatio ratio = RillRatio::moderate) {
    return slope_factor(feet * foot, percent / 100, method, ratio);
}

SlopeDescription slope(double percent, double feet) {
    SlopeDescription description;
    description.gradient.value = percent / 100;
    description.length_m.value = feet * foot;
    return description;
}

TEST(Slope, TheUnitPlotHasAFactorOfAboutOne) {
    // 72.6 ft at 9 %, by definition of the unit plot; the fitted curves come within 1.5 %.
    EXPECT_NEAR(LS(9, 72.6), 1.0, 0.01);
    EXPECT_NEAR(LS(9, 72.6, SlopeMethod::handbook_537), 1.0, 0.015);
}

TEST(Slope, TheHandbooksDifferOnTheSameGround) {
    // By hand: 6 %, 200 ft. AH 537 Table 3 (from memory) has .952.
    EXPECT_NEAR(LS(6, 200), 1.05, 0.005);
    EXPECT_NEAR(LS(6, 200, SlopeMethod::handbook_537), 0.952, 0.002);
}

TEST(Slope, ReadingsOfTheHandbooksTablesComeOut) {
    // AH 703 Tables 4-1 and 4-3 as read in a county report: 8.5 and 6.8 at 33 %, 150 ft; 1 at 5 %, 600 ft.
    EXPECT_NEAR(LS(33, 150, SlopeMethod::handbook_703, RillRatio::high), 8.5, 0.05);
    EXPECT_NEAR(LS(33, 150, SlopeMethod::handbook_703, RillRatio::low), 6.8, 0.06);
    EXPECT_NEAR(LS(5, 600, SlopeMethod::handbook_703, RillRatio::low), 1.0, 0.05);
}

TEST(Slope, SteepnessTakesTheSineOfTheAngle) {
    // At 60 % the sine is 0.5145, not 0.60: 16.8 x 0.5145 - 0.5 = 8.144 by hand.
    EXPECT_NEAR(steepness_factor_703(0.60), 8.144, 0.001);
}

TEST(Slope, SteepnessStepsAtNinePercent) {
    // AH 703 eq. 4-4, read in a reprint: 0.997 at 8.99 %, 1.006 at 9 %.
    EXPECT_NEAR(steepness_factor_703(0.0899), 0.997, 0.0005);
    EXPECT_NEAR(steepness_factor_703(9.0 / 100), 1.006, 0.0005);
}

TEST(Slope, RillRatioHalvesOrDoublesTheRatioNotTheExponent) {
    const double gradient = 0.12;
    const double m = length_exponent_703(gradient, RillRatio::moderate);
    const double b = m / (1 - m);
    EXPECT_NEAR(length_exponent_703(gradient, RillRatio::low), (b / 2) / (1 + b / 2), 1e-12);
    EXPECT_NEAR(length_exponent_703(gradient, RillRatio::high), (2 * b) / (1 + 2 * b), 1e-12);
}

TEST(Slope, ExponentOf537GoesByClass) {
    // AH 537 p. 14-15, from memory.
    EXPECT_DOUBLE_EQ(length_exponent_537(0.009), 0.2);
    EXPECT_DOUBLE_EQ(length_exponent_537(1.0 / 100), 0.3);
    EXPECT_DOUBLE_EQ(length_exponent_537(3.5 / 100), 0.4);
    EXPECT_DOUBLE_EQ(length_exponent_537(4.5 / 100), 0.4);
    EXPECT_DOUBLE_EQ(length_exponent_537(5.0 / 100), 0.5);
}

TEST(Slope, AVeryShortSlopeLosesNoMoreThanOneOfFifteenFeet) {
    for (const double percent : {0.5, 2.0, 8.0, 9.0, 20.0, 60.0})
        EXPECT_LE(LS(percent, 10), LS(percent, 15)) << percent;
}

TEST(Slope, LongerAndSteeperGroundNeverLosesLess) {
    EXPECT_TRUE(rc::check("both handbooks, all rill ratios", [] {
        const auto method = *rc::gen::element(SlopeMethod::handbook_703, SlopeMethod::handbook_537);
        const auto ratio = *rc::gen::element(RillRatio::low, RillRatio::moderate, RillRatio::high);
        const double feet = *rc::gen::inRange(73, 1000), percent = *rc::gen::inRange(2, 500) / 10.0;
        RC_ASSERT(LS(percent, feet + 10, method, ratio) >= LS(percent, feet, method, ratio));
        // From the unit plot's length on; below it a larger exponent means a smaller L.
        RC_ASSERT(LS(percent + 0.1, feet, method, ratio) >= LS(percent, feet, method, ratio));
    }));
}

TEST(Slope, CarefulReadersSpeakUpOutsideThePlots) {
    const auto codes = [](const SlopeDescription& description) {
        std::vector<std::string> all;
        for (const auto& remark : slope_remarks(description)) all.push_back(remark.code);
        return all;
    };
    using Codes = std::vector<std::string>;
    EXPECT_EQ(codes(slope(6, 200)), Codes{});
    EXPECT_EQ(codes(slope(6, 401)), Codes{"slope-long"});
    EXPECT_EQ(codes(slope(6, 14)), Codes{"slope-short"});
    EXPECT_EQ(codes(slope(36, 100)), Codes{"slope-steep"});
}

}  // namespace
}  // namespace soilhold::factors
