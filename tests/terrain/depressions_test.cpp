#include "terrain/depressions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <queue>
#include <random>
#include <tuple>

#include "terrain/made_ground.h"

namespace {

using namespace soilhold::terrain;

// The oracle: one priority flood of the whole grid, cell by cell (Barnes, Lehman & Mulla 2014, their plainest form).
Grid<float> plain_flood(const Grid<float>& ground) {
    using Entry = std::tuple<float, std::int64_t, std::int64_t>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    Grid<float> filled = ground;
    Grid<std::uint8_t> seen(ground.shape(), 0);
    const auto dry = [&](std::int64_t r, std::int64_t c) {
        return !ground.shape().holds(r, c) || std::isnan(ground(r, c));
    };
    for (std::int64_t r = 0; r < ground.rows(); ++r)
        for (std::int64_t c = 0; c < ground.columns(); ++c) {
            bool outlet = false;
            for (int k = 0; k < 9; ++k) outlet = outlet || dry(r + k / 3 - 1, c + k % 3 - 1);
            if (dry(r, c) || !outlet) continue;
            open.emplace(ground(r, c), r, c);
            seen(r, c) = 1;
        }
    while (!open.empty()) {
        const auto [z, row, column] = open.top();
        open.pop();
        for (int k = 0; k < 9; ++k) {
            const std::int64_t r = row + k / 3 - 1, c = column + k % 3 - 1;
            if (dry(r, c) || seen(r, c)) continue;
            seen(r, c) = 1;
            filled(r, c) = std::max(ground(r, c), z);
            open.emplace(filled(r, c), r, c);
        }
    }
    return filled;
}

testing::AssertionResult same(const Grid<float>& a, const Grid<float>& b) {
    if (!(a.shape() == b.shape())) return testing::AssertionFailure() << "other shapes";
    for (std::int64_t r = 0; r < a.rows(); ++r)
        for (std::int64_t c = 0; c < a.columns(); ++c) {
            const float x = a(r, c), y = b(r, c);
            if (x == y || (std::isnan(x) && std::isnan(y))) continue;
            return testing::AssertionFailure() << "row " << r << ", column " << c << ": " << x << " and " << y;
        }
    return testing::AssertionSuccess();
}

Grid<float> filled(Grid<float> ground, const Tiling& tiling = {}) {
    fill_depressions(ground, tiling);
    return ground;
}

TEST(Depressions, APitFillsToTheLowestCellOfItsRing) {
    const auto ground = ground_of({{9, 9, 9, 9, 9},  //
                                   {9, 5, 5, 5, 9},
                                   {9, 5, 1, 5, 4},
                                   {9, 5, 5, 5, 9},
                                   {9, 9, 9, 9, 9}});
    const auto expected = ground_of({{9, 9, 9, 9, 9},  //
                                     {9, 5, 5, 5, 9},
                                     {9, 5, 5, 5, 4},
                                     {9, 5, 5, 5, 9},
                                     {9, 9, 9, 9, 9}});
    EXPECT_TRUE(same(filled(ground), expected));
}

TEST(Depressions, TwoPitsThatSpillIntoEachOtherRiseToTheirCommonWayOut) {
    // 1 and 2 meet over 3, and leave together over 6 at the east.
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                                   {9, 1, 3, 2, 6, 5},
                                   {9, 9, 9, 9, 9, 9}});
    const auto expected = ground_of({{9, 9, 9, 9, 9, 9},  //
                                     {9, 6, 6, 6, 6, 5},
                                     {9, 9, 9, 9, 9, 9}});
    for (const std::int64_t side : {1, 2, 3, 9}) EXPECT_TRUE(same(filled(ground, {side, 1}), expected)) << side;
}

TEST(Depressions, AHoleInTheDataDrainsWhatLiesBesideIt) {
    const auto ground = ground_of({{9, 9, 9, 9, 9},  //
                                   {9, 4, 4, 4, 9},
                                   {9, 3, -9, 4, 9},
                                   {9, 4, 4, 4, 9},
                                   {9, 9, 9, 9, 9}});
    EXPECT_TRUE(same(filled(ground), ground));
}

TEST(Depressions, WaterLeavesAcrossACorner) {
    const auto ground = ground_of({{9, 9, 9, 9},  //
                                   {9, 1, 9, 9},
                                   {9, 9, 2, 9},
                                   {9, 9, 9, 3}});
    const auto expected = ground_of({{9, 9, 9, 9},  //
                                     {9, 3, 9, 9},
                                     {9, 9, 3, 9},
                                     {9, 9, 9, 3}});
    EXPECT_TRUE(same(filled(ground), expected));
}

TEST(Depressions, TheReportCountsWhatWasRaised) {
    auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                             {9, 1, 3, 2, 6, 5},
                             {9, 9, 9, 9, 9, 9}},
                            10);
    const auto report = fill_depressions(ground);
    EXPECT_EQ(report.cells_raised, 3);
    EXPECT_EQ(report.pits, 2);
    EXPECT_EQ(report.deepest_m, 5);
    EXPECT_EQ(report.volume_m3, (5 + 3 + 4) * 100);
}

TEST(Depressions, ABowlFillsToTheLevelOfItsBreach) {
    // A cone upside down with a notch at 20 m in its rim: all below 20 m becomes 20 m, nothing else changes.
    Grid<float> bowl({61, 61, 1});
    for (std::int64_t r = 0; r < 61; ++r)
        for (std::int64_t c = 0; c < 61; ++c)
            bowl(r, c) = static_cast<float>(std::hypot(static_cast<double>(r - 30), static_cast<double>(c - 30)));
    for (std::int64_t c = 50; c < 61; ++c) bowl(30, c) = 20;
    const auto level = filled(bowl, {16, 2});
    for (std::int64_t r = 0; r < 61; ++r)
        for (std::int64_t c = 0; c < 61; ++c) EXPECT_EQ(level(r, c), std::max(bowl(r, c), 20.0F));
}

TEST(Depressions, APlaneIsLeftAlone) {
    Grid<float> plane({40, 30, 1});
    for (std::int64_t r = 0; r < 30; ++r)
        for (std::int64_t c = 0; c < 40; ++c) plane(r, c) = static_cast<float>(3 * r + 2 * c);
    auto level = plane;
    EXPECT_EQ(fill_depressions(level, {7, 2}).cells_raised, 0);
    EXPECT_TRUE(same(level, plane));
}

TEST(Depressions, AnyTilesGiveWhatOnePlainFloodGives) {
    std::mt19937 random(20);
    for (int trial = 0; trial < 1500; ++trial) {
        const auto ground = troubled_ground(random, 24);
        const auto expected = plain_flood(ground);
        for (const std::int64_t side : {1, 2, 3, 5, 8, 64})
            for (const int threads : {1, 4}) {
                if (threads > 1 && trial % 8) continue;
                ASSERT_TRUE(same(filled(ground, {side, threads}), expected)) << "trial " << trial << ", side " << side;
            }
    }
}

TEST(Depressions, RoughHillsFillTheSameInAnyTiles) {
    const auto ground = rough_ground(300, 410, 3);
    const auto expected = plain_flood(ground);
    ASSERT_FALSE(same(ground, expected)) << "the ground has no pits, so this proves nothing";
    FillReport first;
    for (const std::int64_t side : {3, 17, 64, 256, 1000})
        for (const int threads : {1, 2, 4}) {
            auto level = ground;
            const auto report = fill_depressions(level, {side, threads});
            EXPECT_TRUE(same(level, expected)) << "side " << side;
            if (first.cells_raised == 0) first = report;
            EXPECT_EQ(report.cells_raised, first.cells_raised);
            EXPECT_EQ(report.volume_m3, first.volume_m3);
            EXPECT_EQ(report.deepest_m, first.deepest_m);
            EXPECT_EQ(report.pits, first.pits);
        }
}

TEST(Depressions, ATileMayHoldMoreBasinsThanSixteenBitsCount) {
    Grid<float> pitted({601, 501, 1}, 2);  // 300 x 250 = 75000 single pits
    for (std::int64_t r = 1; r < 501; r += 2)
        for (std::int64_t c = 1; c < 601; c += 2) pitted(r, c) = 1;
    const auto report = fill_depressions(pitted, {1000, 1});
    EXPECT_EQ(report.pits, 75000);
    EXPECT_EQ(report.volume_m3, 75000);
    for (const float z : pitted.values()) ASSERT_EQ(z, 2);
}

TEST(Depressions, TurningTheGroundTurnsTheResult) {
    std::mt19937 random(21);
    for (int trial = 0; trial < 200; ++trial) {
        const auto ground = troubled_ground(random, 20);
        Grid<float> turned({ground.rows(), ground.columns(), 2}), back = ground;
        for (std::int64_t r = 0; r < ground.rows(); ++r)
            for (std::int64_t c = 0; c < ground.columns(); ++c) turned(ground.columns() - 1 - c, r) = ground(r, c);
        const auto level = filled(turned, {6, 1});
        for (std::int64_t r = 0; r < ground.rows(); ++r)
            for (std::int64_t c = 0; c < ground.columns(); ++c) back(r, c) = level(ground.columns() - 1 - c, r);
        ASSERT_TRUE(same(back, filled(ground, {6, 1}))) << "trial " << trial;
    }
}

TEST(Depressions, FillingTwiceChangesNothing) {
    auto ground = filled(rough_ground(200, 200, 9));
    EXPECT_EQ(fill_depressions(ground).cells_raised, 0);
}

TEST(Depressions, GroundWithoutAnyValueStaysSo) {
    Grid<float> nothing({9, 7, 1}, no_value);
    EXPECT_EQ(fill_depressions(nothing, {4, 1}).cells_raised, 0);
    for (const float z : nothing.values()) EXPECT_TRUE(std::isnan(z));
}

TEST(Depressions, ASideBelowOneIsRefused) {
    Grid<float> ground({9, 7, 1}, 0);
    EXPECT_THROW(fill_depressions(ground, {0, 1}), std::invalid_argument);
}

}  // namespace
