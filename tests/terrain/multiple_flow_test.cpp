#include "terrain/multiple_flow.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

#include "terrain/made_ground.h"

namespace {

using namespace soilhold::terrain;

float sum(const FlowShares& shares) { return std::accumulate(shares.way.begin(), shares.way.end(), 0.0F); }

// E, S, W, N, SE, SW, NW, NE.
const Neighbours by_hand{10, {8, 9, 11, 12, 10 - 2 * std::numbers::sqrt2_v<float>, 10, no_value, 13}};

TEST(MultipleFlow, SharesByHand) {
    // Falls of 2, 1 and 2 (across the corner) with p = 1: 2, 1 and 2 fifths.
    const auto freeman = freeman_shares(by_hand, 1);
    EXPECT_NEAR(freeman.way[0], 0.4, 1e-6);
    EXPECT_NEAR(freeman.way[1], 0.2, 1e-6);
    EXPECT_NEAR(freeman.way[4], 0.4, 1e-6);
    for (const std::size_t k : {2, 3, 5, 6, 7}) EXPECT_EQ(freeman.way[k], 0);
    // Weighted by contour: 2 * 0.5, 1 * 0.5, 2 * 0.354.
    const auto quinn = quinn_shares(by_hand);
    EXPECT_NEAR(quinn.way[0], 1 / 2.208, 1e-6);
    EXPECT_NEAR(quinn.way[1], 0.5 / 2.208, 1e-6);
    EXPECT_NEAR(quinn.way[4], 0.708 / 2.208, 1e-6);
}

TEST(MultipleFlow, ALargeExponentSendsAllTheSteepestWay) {
    const auto shares = freeman_shares({10, {9, 8.5F, 8, 11, 12, 12, 12, 12}}, 25);
    EXPECT_GT(shares.way[2], 0.999);
    const auto equal = freeman_shares({10, {9, 8.5F, 8, 11, 12, 12, 12, 12}}, 0);
    EXPECT_NEAR(equal.way[0], 1 / 3.0, 1e-6);
}

TEST(MultipleFlow, SharesSumToOneOrToNothing) {
    std::mt19937 random(5);
    for (int trial = 0; trial < 20000; ++trial) {
        Neighbours cell;
        const auto height = [&] {
            const auto pick = random() % 10;
            if (pick == 0) return no_value;
            if (pick == 1) return 100.0F;
            return static_cast<float>(100 + std::exp2(static_cast<int>(random() % 40) - 34) *
                                                (static_cast<double>(random()) / 2147483648.0 - 1));
        };
        cell.here = height();
        bool lower = false;
        for (float& z : cell.around) z = height(), lower = lower || z < cell.here;
        for (const auto& shares : {freeman_shares(cell), quinn_shares(cell), freeman_shares(cell, 6.5)}) {
            EXPECT_NEAR(sum(shares), lower ? 1 : 0, 3e-7);
            EXPECT_EQ(shares.any(), lower);
            for (std::size_t k = 0; k < 8; ++k)
                EXPECT_TRUE(cell.around[k] < cell.here || shares.way[k] == 0);
        }
    }
}

TEST(MultipleFlow, EqualFallsGetEqualShares) {
    const auto shares = freeman_shares({1, {0, 0, 0, 0, 2, 2, 2, 2}});
    for (std::size_t k = 0; k < 4; ++k) EXPECT_EQ(shares.way[k], 0.25F);
}

TEST(MultipleFlow, AnExponentOutOfRangeIsRefused) {
    for (const double bad : {-0.1, 26.0, double{NAN}})
        EXPECT_THROW(freeman_shares(by_hand, bad), std::invalid_argument);
}

}  // namespace
