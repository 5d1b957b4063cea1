#include "terrain/d_infinity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "terrain/made_ground.h"

namespace {

using namespace soilhold::terrain;

constexpr double pi = std::numbers::pi;

Neighbours on_plane(double east, double south) {
    Neighbours cell{100, {}};
    for (std::size_t k = 0; k < 8; ++k)
        cell.around[k] = static_cast<float>(100 + east * column_steps[k] + south * row_steps[k]);
    return cell;
}

TEST(DInfinity, OnAPlaneWaterFollowsTheLineOfFall) {
    for (int degree = 0; degree < 360; degree += 3) {
        const double angle = degree * pi / 180;
        const auto shares = d_infinity_shares(on_plane(-std::cos(angle), -std::sin(angle)));
        // Of two ways 45 degrees apart, shares in proportion to the angles; all other ways get nothing.
        double total = 0, turned = 0;
        for (std::size_t k = 0; k < 8; ++k) {
            const double way = std::atan2(row_steps[k], column_steps[k]);
            const double off = std::remainder(way - angle, 2 * pi);
            EXPECT_TRUE(std::abs(off) <= pi / 4 + 1e-3 || shares.way[k] < 1e-4F) << degree;
            total += static_cast<double>(shares.way[k]);
            turned += static_cast<double>(shares.way[k]) * off;
        }
        EXPECT_NEAR(total, 1, 1e-6);
        EXPECT_NEAR(turned, 0, 1e-4) << degree;
    }
}

TEST(DInfinity, ByHandOnOneFacet) {
    // Falls by 2 to the east and by 1 more to the corner: atan(1/2) is 26.565 degrees of 45.
    const auto shares = d_infinity_shares({5, {3, 5, 6, 6, 2, 7, 7, 7}});
    EXPECT_NEAR(shares.way[4], 26.565051 / 45, 1e-6);
    EXPECT_NEAR(shares.way[0], 1 - 26.565051 / 45, 1e-6);
    // Past the corner it runs to the corner; before the side, to the side.
    EXPECT_EQ(d_infinity_shares({5, {4.5F, 6, 6, 6, 2, 7, 7, 7}}).way[4], 1);
    EXPECT_EQ(d_infinity_shares({5, {3, 6, 6, 6, 4, 7, 7, 7}}).way[0], 1);
}

TEST(DInfinity, PitsAndLevelGroundGiveNothing) {
    EXPECT_FALSE(d_infinity_shares({5, {5, 5, 5, 5, 5, 5, 5, 5}}).any());
    EXPECT_FALSE(d_infinity_shares({4, {5, 5, 5, 5, 5, 5, 5, 5}}).any());
    EXPECT_FALSE(d_infinity_shares({no_value, {1, 1, 1, 1, 1, 1, 1, 1}}).any());
}

TEST(DInfinity, BesideAHoleWaterGoesToTheNeighbourThatIsLeft) {
    EXPECT_EQ(d_infinity_shares({5, {3, no_value, 6, 6, no_value, 7, 7, 7}}).way[0], 1);
    EXPECT_EQ(d_infinity_shares({5, {no_value, no_value, 6, 6, 2, 7, 7, 7}}).way[4], 1);
    EXPECT_EQ(d_infinity_shares({5, {INFINITY, -INFINITY, 6, 6, 2, 7, 7, 7}}).way[4], 1);
}

TEST(DInfinity, SharesSumToOneAndNoneGoesUp) {
    std::mt19937 random(6);
    for (int trial = 0; trial < 20000; ++trial) {
        Neighbours cell;
        const auto height = [&] {
            return random() % 9 == 0 ? no_value : static_cast<float>(random() % (trial % 2 ? 5 : 100000));
        };
        cell.here = height();
        bool lower = false;
        for (float& z : cell.around) z = height(), lower = lower || z < cell.here;
        const auto shares = d_infinity_shares(cell);
        double total = 0;
        int receivers = 0;
        for (std::size_t k = 0; k < 8; ++k) {
            total += static_cast<double>(shares.way[k]);
            receivers += shares.way[k] > 0;
            EXPECT_TRUE(cell.around[k] < cell.here || shares.way[k] == 0);
        }
        EXPECT_NEAR(total, lower ? 1 : 0, 2e-7);
        EXPECT_LE(receivers, 2);
    }
}

}  // namespace
