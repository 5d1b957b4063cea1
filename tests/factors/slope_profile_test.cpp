#include "factors/slope_profile.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "factors/irregular_slope.h"
#include "factors/slope_length.h"

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;
constexpr auto m703 = SlopeMethod::handbook_703;
constexpr auto m537 = SlopeMethod::handbook_537;
constexpr auto moderate = RillRatio::moderate;

/// 80 ft of 2 %, 120 ft of 6 %, 60 ft of 2.5 %: 260 ft with a mean of 3.9615 %.
const double mean = (80 * 0.02 + 120 * 0.06 + 60 * 0.025) / 260;
const SlopeShape bent = {{80.0 / 260, 0.02 / mean}, {120.0 / 260, 0.06 / mean}, {60.0 / 260, 0.025 / mean}};

TEST(SlopeProfile, PartsAreThoseOfTheEquationByHand) {
    // Foster & Wischmeier 1974 with the L and S of AH 703 (1997) eq. 4-1 to 4-5, worked in feet with a calculator.
    const double expected[] = {0.251853, 1.278721, 0.530012};
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_NEAR(part_slope_factor(i, 260 * foot, mean, bent, m703, moderate), expected[i], 2e-6) << i;
    EXPECT_NEAR(profile_slope_factor(260 * foot, mean, bent, m703, moderate), 0.789983, 2e-6);
}

TEST(SlopeProfile, By537IsTheHandbooksConvexExample) {
    // AH 537 (1978) p. 16-18, from memory, recomputed: 400 ft of 5, 10, 15 % with m = 0.5 lose LS 3.5; the other way
    // round 2.4.
    const SlopeShape convex = {{1.0 / 3, 0.5}, {1.0 / 3, 1.0}, {1.0 / 3, 1.5}};
    const SlopeShape concave = {{1.0 / 3, 1.5}, {1.0 / 3, 1.0}, {1.0 / 3, 0.5}};
    EXPECT_NEAR(profile_slope_factor(400 * foot, 0.10, convex, m537, moderate), 3.52, 0.03);
    EXPECT_NEAR(profile_slope_factor(400 * foot, 0.10, concave, m537, moderate), 2.42, 0.02);
}

TEST(SlopeProfile, PartsOfEqualSteepnessAreOneSlope) {
    EXPECT_TRUE(rc::check("any cut", [] {
        const double gradient = *rc::gen::inRange(2, 500) / 1000.0;
        const double length_m = *rc::gen::inRange(5, 300) * 1.0;
        const auto weights = *rc::gen::container<std::vector<int>>(4, rc::gen::inRange(1, 50));
        const auto method = *rc::gen::element(m703, m537);
        const auto rills = *rc::gen::element(RillRatio::low, moderate, RillRatio::high, RillRatio::thawing);
        double sum = 0;
        for (const int weight : weights) sum += weight;
        SlopeShape even;
        for (const int weight : weights) even.push_back({weight / sum, 1.0});
        const double whole = slope_factor(length_m, gradient, method, rills);
        RC_ASSERT(std::abs(profile_slope_factor(length_m, gradient, even, method, rills) / whole - 1) < 1e-9);
        RC_ASSERT(std::abs(cut_slope_factor(length_m, gradient, even, method, rills) / whole - 1) < 1e-9);
    }));
}

TEST(SlopeProfile, LowerPartsOfAnEvenSlopeLoseMore) {
    const SlopeShape halves = {{0.5, 1.0}, {0.5, 1.0}};
    for (const auto method : {m703, m537})
        EXPECT_GT(part_slope_factor(1, 60, 0.06, halves, method, moderate),
                  1.2 * part_slope_factor(0, 60, 0.06, halves, method, moderate));
}

TEST(SlopeProfile, CutByTerracesEachPartHasTheIntervalsLength) {
    // The same slope cut every 90 ft: each part's S (90/72.6)^m by its share of the slope, with a calculator.
    EXPECT_NEAR(cut_slope_factor(90 * foot, mean, bent, m703, moderate), 0.496095, 2e-6);
}

TEST(SlopeProfile, WorkingEndsAtTheFactor) {
    for (const auto method : {m703, m537}) {
        EXPECT_DOUBLE_EQ(profile_steps(80, mean, bent, method, moderate).back().value,
                         profile_slope_factor(80, mean, bent, method, moderate));
        EXPECT_DOUBLE_EQ(cut_slope_steps(30, mean, bent, method, moderate).back().value,
                         cut_slope_factor(30, mean, bent, method, moderate));
    }
}

TEST(ThawingSoil, HasItsOwnSteepnessAndHalfThePowerOfLength) {
    // AH 703 (1997) eq. 4-6 with m = 0.5, from memory: (sin t / 0.0896)^0.6 x (100/72.6)^0.5 at 12 %, worked by hand.
    EXPECT_NEAR(slope_factor(100 * foot, 0.12, m703, RillRatio::thawing), 1.392492, 2e-6);
    EXPECT_DOUBLE_EQ(length_exponent_703(0.02, RillRatio::thawing), 0.5);
}

}  // namespace
}  // namespace soilhold::factors
