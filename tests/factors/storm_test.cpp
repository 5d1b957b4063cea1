#include "factors/storm.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "units/unit.h"

namespace soilhold::factors {
namespace {

constexpr double inch = 25.4;

/// Intervals of whole minutes and hundredths of an inch, with pauses up to ten hours.
rc::Gen<Rain> any_rain() {
    return rc::gen::map(rc::gen::container<std::vector<std::tuple<int, int, int>>>(
                            rc::gen::tuple(rc::gen::inRange(0, 600), rc::gen::inRange(1, 60), rc::gen::inRange(0, 60))),
                        [](const std::vector<std::tuple<int, int, int>>& pieces) {
                            Rain rain;
                            double minute = 0;
                            for (const auto& [pause, length, hundredths] : pieces) {
                                minute += pause;
                                rain.push_back({minute, minute + length, hundredths * 0.254});
                                minute += length;
                            }
                            return rain;
                        });
}

double depth_of(const Rain& rain) {
    double depth = 0;
    for (const RainInterval& one : rain) depth += one.depth_mm;
    return depth;
}

TEST(Storm, TheHandbooksWorkedStormComesOut) {
    // AH 537 (1978) appendix, from memory, recomputed: 1.30 in, 1284 ft tonf/acre, I30 2.16 in/h, EI 27.7.
    const double clock[] = {0, 20, 27, 36, 50, 57, 65, 75, 90};
    const double inches[] = {0, .05, .12, .35, 1.05, 1.20, 1.25, 1.25, 1.30};
    Rain rain;
    for (int i = 1; i < 9; ++i) rain.push_back({clock[i - 1], clock[i], (inches[i] - inches[i - 1]) * inch});
    const Storm storm = storm_of(rain);
    EXPECT_NEAR(storm.depth_mm / inch, 1.30, 1e-9);
    EXPECT_NEAR(storm.energy_537 / units::mj_ha_per_ft_tonf_acre, 1284, 0.5);
    EXPECT_NEAR(storm.I30_mm_per_h / inch, 2.16, 0.005);
    EXPECT_NEAR(storm.EI30_537() / 17.02, 27.7, 0.1);
    EXPECT_TRUE(counts(storm));
}

TEST(Storm, I30OfEvenRainIsItsIntensity) { EXPECT_NEAR(storm_of({{0, 60, 30}}).I30_mm_per_h, 30, 1e-12); }

TEST(Storm, ReadsBetweenThePointsOfTheChart) {
    // 10 mm in the middle 20 minutes of an hour, 2 mm before and after: the best half hour holds 10 + 1 mm.
    EXPECT_NEAR(largest_depth_mm({{0, 20, 2}, {20, 40, 10}, {40, 60, 2}}, 30), 11, 1e-12);
}

TEST(Storm, AStormShorterThanHalfAnHourHasTwiceItsDepth) { EXPECT_DOUBLE_EQ(storm_of({{0, 10, 8}}).I30_mm_per_h, 16); }

TEST(Storm, SixHoursWithHardlyAnyRainEndAStorm) {
    // AH 703 (1997) ch. 2, from memory: below 1.27 mm (0.05 in) for 6 h.
    const Rain dry{{0, 30, 10}, {30 + 360, 420, 10}};
    EXPECT_EQ(cut_into_storms(dry).size(), 2U);
    const Rain pause{{0, 30, 10}, {30 + 300, 420, 10}};
    EXPECT_EQ(cut_into_storms(pause).size(), 1U);
    const Rain drizzle{{0, 30, 10}, {200, 230, 1.26}, {800, 830, 10}};
    EXPECT_EQ(cut_into_storms(drizzle).size(), 2U);
    const Rain enough{{0, 30, 10}, {200, 230, 5 * 0.254}, {240 + 340, 640, 10}};
    EXPECT_EQ(cut_into_storms(enough).size(), 1U);
}

TEST(Storm, HalfAnInchCounts) {
    EXPECT_TRUE(counts(storm_of({{0, 600, 0.5 * inch}})));
    EXPECT_FALSE(counts(storm_of({{0, 600, 0.49 * inch}})));
}

TEST(Storm, AQuarterInchInAQuarterHourCountsToo) {
    EXPECT_TRUE(counts(storm_of({{0, 15, 0.25 * inch}})));
    EXPECT_FALSE(counts(storm_of({{0, 15, 0.24 * inch}})));
    EXPECT_FALSE(counts(storm_of({{0, 20, 0.25 * inch}})));
}

TEST(Storm, ALimitOnI30IsOnlySetWhenAskedFor) {
    StormRule eastern;
    eastern.I30_limit_mm_per_h = 63.5;
    const Rain cloudburst{{0, 30, 50}};
    EXPECT_DOUBLE_EQ(storm_of(cloudburst).I30_mm_per_h, 100);
    EXPECT_DOUBLE_EQ(storm_of(cloudburst, eastern).I30_mm_per_h, 63.5);
}

TEST(Storm, IntervalsThatOverlapOrRunBackwardsAreErrors) {
    EXPECT_THROW(cut_into_storms({{0, 10, 1}, {5, 15, 1}}), std::invalid_argument);
    EXPECT_THROW(cut_into_storms({{10, 10, 1}}), std::invalid_argument);
    EXPECT_THROW(largest_depth_mm({{0, 10, -1}}, 30), std::invalid_argument);
    EXPECT_THROW(storm_of({}), std::invalid_argument);
}

TEST(Storm, AllRainBelongsToOneStorm) {
    EXPECT_TRUE(rc::check("depths of storms add up to the record", [] {
        const Rain rain = *any_rain();
        double sum = 0;
        for (const Rain& one : cut_into_storms(rain)) sum += depth_of(one);
        RC_ASSERT(std::abs(sum - depth_of(rain)) < 1e-6);
    }));
}

TEST(Storm, LargestDepthIsThatOfEveryMinuteTried) {
    EXPECT_TRUE(rc::check("no window beats it, and one reaches it", [] {
        const Rain rain = *rc::gen::suchThat(any_rain(), [](const Rain& r) { return !r.empty() && r.size() < 20; });
        const double found = largest_depth_mm(rain, 30);
        double best = 0;
        // All edges are whole minutes, and so is the best start.
        for (double start = rain.front().start_min - 30; start <= rain.back().end_min; start += 1) {
            double depth = 0;
            for (const RainInterval& one : rain)
                depth += one.depth_mm *
                         std::max(0.0, std::min(one.end_min, start + 30) - std::max(one.start_min, start)) /
                         (one.end_min - one.start_min);
            best = std::max(best, depth);
        }
        RC_ASSERT(std::abs(found - best) < 1e-9);
    }));
}

TEST(Storm, ABurstIsWorseThanTheSameDepthFallingEvenly) {
    EXPECT_TRUE(rc::check("a quarter hour against an hour", [] {
        const double depth_mm = *rc::gen::inRange(1, 200) * 0.254;
        const Storm burst = storm_of({{0, 15, depth_mm}}), even = storm_of({{0, 60, depth_mm}});
        RC_ASSERT(burst.EI30_brown_foster() > even.EI30_brown_foster());
        RC_ASSERT(burst.EI30_537() >= even.EI30_537());
    }));
}

}  // namespace
}  // namespace soilhold::factors
