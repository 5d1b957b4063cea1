#include "terrain/spill_graph.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>

namespace {

using namespace soilhold::terrain;

constexpr float infinity = std::numeric_limits<float>::infinity();

TEST(SpillGraph, ABasinFillsToTheLowestWayOut) {
    // 1 reaches the outlet 0 over 7 directly, over 5 through 2.
    const auto levels = spill_levels(3, 1, {{1, 0, 7}, {1, 2, 3}, {2, 0, 5}});
    EXPECT_EQ(levels.level, (std::vector<float>{-infinity, 5, 5}));
}

TEST(SpillGraph, ABasinAboveAnotherKeepsItsOwnSpill) {
    const auto levels = spill_levels(3, 1, {{1, 0, 2}, {2, 1, 9}});
    EXPECT_EQ(levels.level, (std::vector<float>{-infinity, 2, 9}));
}

TEST(SpillGraph, WithTwoOutletsEachBasinNamesOneAndTheirTieIsKept) {
    const auto levels = spill_levels(4, 2, {{0, 2, 4}, {2, 3, 6}, {3, 1, 5}});
    EXPECT_EQ(levels.level[2], 4);
    EXPECT_EQ(levels.level[3], 5);
    EXPECT_EQ(levels.outlet[2], 0U);
    EXPECT_EQ(levels.outlet[3], 1U);
    ASSERT_EQ(levels.between.size(), 1U);
    EXPECT_EQ(levels.between[0].height, 6);
}

TEST(SpillGraph, ABasinWithoutAWayHasNoLevel) {
    EXPECT_EQ(spill_levels(3, 1, {{1, 2, 3}}).level, (std::vector<float>{-infinity, infinity, infinity}));
}

TEST(SpillGraph, LevelsAreThoseOfRepeatedRelaxation) {
    // The oracle: level = min over saddles of max(saddle, level beyond), until nothing changes.
    std::mt19937 random(50);
    for (int trial = 0; trial < 500; ++trial) {
        const std::uint32_t basins = 2 + random() % 30;
        std::vector<Saddle> saddles;
        for (std::uint32_t i = 0, count = random() % 90; i < count; ++i)
            saddles.push_back({static_cast<std::uint32_t>(random() % basins),
                               static_cast<std::uint32_t>(random() % basins), static_cast<float>(random() % 20)});
        std::vector<float> expected(basins, infinity);
        expected[0] = -infinity;
        for (bool changed = true; changed;) {
            changed = false;
            for (const auto& s : saddles)
                for (const auto& [from, to] : {std::pair(s.a, s.b), std::pair(s.b, s.a)}) {
                    const float level = std::max(s.height, expected[from]);
                    if (level < expected[to]) expected[to] = level, changed = true;
                }
        }
        ASSERT_EQ(spill_levels(basins, 1, saddles).level, expected) << "trial " << trial;
    }
}

}  // namespace
