#include "terrain/breaching.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <set>

#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"
#include "terrain/stored_cuts.h"
#include "terrain/turned.h"

namespace {

using namespace soilhold::terrain;

constexpr CutLimits far_and_deep{.longest_m = 100, .deepest_m = 100};

Grid<float> breached(Grid<float> ground, const CutLimits& limits = far_and_deep, const Tiling& tiling = {}) {
    breach_depressions(ground, limits, tiling);
    return ground;
}

Grid<float> filled(Grid<float> ground) {
    fill_depressions(ground);
    return ground;
}

bool dry(const Grid<float>& ground, std::int64_t r, std::int64_t c) {
    return !ground.shape().holds(r, c) || std::isnan(ground(r, c));
}

using Cells = std::set<std::pair<std::int64_t, std::int64_t>>;

// The plainest search for pits: level ground grown from each cell, without an outlet or anything lower beside it.
std::set<Cells> pits_of(const Grid<float>& ground) {
    std::set<Cells> pits;
    for (std::int64_t row = 0; row < ground.rows(); ++row)
        for (std::int64_t column = 0; column < ground.columns(); ++column) {
            if (dry(ground, row, column)) continue;
            Cells level{{row, column}};
            std::vector<std::pair<std::int64_t, std::int64_t>> open{{row, column}};
            bool drains = false;
            while (!open.empty() && !drains) {
                const auto [r, c] = open.back();
                open.pop_back();
                for (int k = 0; k < 9; ++k) {
                    const std::int64_t y = r + k / 3 - 1, x = c + k % 3 - 1;
                    drains = drains || dry(ground, y, x) || ground(y, x) < ground(r, c);
                    if (!dry(ground, y, x) && ground(y, x) == ground(r, c) && level.emplace(y, x).second)
                        open.emplace_back(y, x);
                }
            }
            if (!drains) pits.insert(level);
        }
    return pits;
}

// The least depth to take away from a pit to lower ground or an outlet no higher: every way made cheaper until none is.
double cheapest(const Grid<float>& ground, const Cells& pit) {
    const float bottom = ground(pit.begin()->first, pit.begin()->second);
    Grid<double> cost(ground.shape(), INFINITY);
    for (const auto& [r, c] : pit) cost(r, c) = 0;
    double least = INFINITY;
    for (bool better = true; better;) {
        better = false;
        for (std::int64_t row = 0; row < ground.rows(); ++row)
            for (std::int64_t column = 0; column < ground.columns(); ++column) {
                if (dry(ground, row, column)) continue;
                bool outlet = false;
                double way = INFINITY;
                for (int k = 0; k < 9; ++k) {
                    const std::int64_t r = row + k / 3 - 1, c = column + k % 3 - 1;
                    if (dry(ground, r, c))
                        outlet = true;
                    else
                        way = std::min(way, cost(r, c));
                }
                const float height = ground(row, column);
                if (outlet && height > bottom) continue;
                way += std::max(0.0, static_cast<double>(height) - bottom);
                if (height < bottom || outlet) least = std::min(least, way);
                if (height < bottom || !(way < cost(row, column))) continue;
                cost(row, column) = way;
                better = true;
            }
    }
    return least;
}

TEST(Breaching, ADamIsCutDownToThePitBehindIt) {
    auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                             {9, 2, 5, 4, 1, 1},
                             {9, 9, 9, 9, 9, 9}},
                            10);
    const auto report = breach_depressions(ground, far_and_deep);
    EXPECT_TRUE(same_bits(ground, ground_of({{9, 9, 9, 9, 9, 9},  //
                                             {9, 2, 2, 2, 1, 1},
                                             {9, 9, 9, 9, 9, 9}},
                                            10)));
    EXPECT_EQ(report.cuts, 1);
    EXPECT_EQ(report.pits_left, 0);
    EXPECT_EQ(report.cells_lowered, 2);
    EXPECT_EQ(report.volume_m3, (3 + 2) * 100);
    EXPECT_EQ(report.deepest_m, 3);
    EXPECT_EQ(report.longest_m, 30);
}

TEST(Breaching, TheCheapestWayIsCutNotTheShortest) {
    // Eastwards 6 would go in one cell; round by the south it is 2 + 1 in two.
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                                   {9, 2, 8, 1, 1, 1},
                                   {9, 4, 9, 1, 9, 9},
                                   {9, 9, 3, 9, 9, 9},
                                   {9, 9, 9, 9, 9, 9}});
    const auto expected = ground_of({{9, 9, 9, 9, 9, 9},  //
                                     {9, 2, 8, 1, 1, 1},
                                     {9, 2, 9, 1, 9, 9},
                                     {9, 9, 2, 9, 9, 9},
                                     {9, 9, 9, 9, 9, 9}});
    EXPECT_TRUE(same_bits(breached(ground), expected));
}

TEST(Breaching, ACellUnderTwoCutsGetsTheLowerOne) {
    // 3 finds 2 across the 6; 2 goes on over the 6 and the 5 to the 1.
    auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                             {9, 3, 9, 9, 9, 9},
                             {9, 9, 6, 5, 1, 1},
                             {9, 2, 9, 9, 9, 9},
                             {9, 9, 9, 9, 9, 9}});
    const auto report = breach_depressions(ground, far_and_deep);
    EXPECT_TRUE(same_bits(ground, ground_of({{9, 9, 9, 9, 9, 9},  //
                                             {9, 3, 9, 9, 9, 9},
                                             {9, 9, 2, 2, 1, 1},
                                             {9, 2, 9, 9, 9, 9},
                                             {9, 9, 9, 9, 9, 9}})));
    EXPECT_EQ(report.cuts, 2);
    EXPECT_EQ(report.cells_lowered, 2);
    EXPECT_EQ(report.volume_m3, 4 + 3);
}

TEST(Breaching, WhatNeedsADeeperCutIsLeft) {
    const auto ground = ground_of({{9, 9, 9, 9, 9}, {9, 2, 5, 1, 1}, {9, 9, 9, 9, 9}});
    auto left = ground;
    EXPECT_EQ(breach_depressions(left, {.longest_m = 100, .deepest_m = 2.9}).pits_left, 1);
    EXPECT_TRUE(same_bits(left, ground));
    EXPECT_EQ(breached(ground, {.longest_m = 100, .deepest_m = 3})(1, 2), 2);
}

TEST(Breaching, WhatNeedsALongerCutIsLeft) {
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9}, {9, 2, 5, 5, 1, 1}, {9, 9, 9, 9, 9, 9}}, 5);
    auto left = ground;
    EXPECT_EQ(breach_depressions(left, {.longest_m = 14.9, .deepest_m = 9}).pits_left, 1);
    EXPECT_TRUE(same_bits(left, ground));
    EXPECT_EQ(breached(ground, {.longest_m = 15, .deepest_m = 9})(1, 3), 2);
}

TEST(Breaching, AHoleInTheDataTakesWaterFromCellsNoHigherThanThePit) {
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9}, {9, 3, 5, 3, -9, 9}, {9, 9, 9, 9, 9, 9}});
    EXPECT_EQ(breached(ground)(1, 2), 3);
}

TEST(Breaching, AnOutletAboveThePitIsNotCut) {
    const auto beside_a_hole = ground_of({{9, 9, 9, 9, 9, 9}, {9, 3, 5, 4, -9, 9}, {9, 9, 9, 9, 9, 9}});
    EXPECT_TRUE(same_bits(breached(beside_a_hole), beside_a_hole));
    const auto at_the_border = ground_of({{9, 9, 9}, {9, 3, 4}, {9, 9, 9}});
    EXPECT_TRUE(same_bits(breached(at_the_border), at_the_border));
}

TEST(Breaching, ALevelBottomIsOnePitAndIsCutFromItsNearestSide) {
    auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                             {9, 2, 2, 2, 5, 1},
                             {9, 2, 2, 2, 9, 9},
                             {9, 9, 9, 9, 9, 9}});
    const auto report = breach_depressions(ground, far_and_deep);
    EXPECT_EQ(report.cuts, 1);
    EXPECT_EQ(report.cells_lowered, 1);
    EXPECT_EQ(ground(1, 4), 2);
}

TEST(Breaching, ALakeWiderThanTheLongestCutIsLeftToFilling) {
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9}, {9, 2, 2, 2, 5, 1}, {9, 9, 9, 9, 9, 9}});
    EXPECT_TRUE(same_bits(breached(ground, {.longest_m = 1.9, .deepest_m = 9}), ground));
}

TEST(Breaching, ATieGoesToTheEndThatIsReadFirst) {
    const auto ground = ground_of({{9, 9, 9, 9, 9}, {1, 5, 2, 5, 1}, {9, 9, 9, 9, 9}});
    const auto expected = ground_of({{9, 9, 9, 9, 9}, {1, 2, 2, 5, 1}, {9, 9, 9, 9, 9}});
    EXPECT_TRUE(same_bits(breached(ground), expected));
}

TEST(Breaching, EveryCutIsTheCheapestThereIs) {
    std::mt19937 random(31);
    for (int trial = 0; trial < 150; ++trial) {
        const auto ground = troubled_ground(random, 12);
        double expected = 0;
        for (const Cells& pit : pits_of(ground))
            if (const double depth = cheapest(ground, pit); std::isfinite(depth)) expected += depth;
        const Tile all{0, 0, ground.rows(), ground.columns()};
        const auto found = find_cuts(surroundings_of(ground, 0, ground.shape(), all, cut_halo(far_and_deep, 2)),
                                     far_and_deep, ground.shape().cell_m);
        double depth = 0;
        for (const LoweredCell& cell : found.cells)
            depth += static_cast<double>(ground(cell.row, cell.column)) - cell.height_m;
        ASSERT_NEAR(depth, expected, 1e-3) << "trial " << trial;
    }
}

TEST(Breaching, APitWithACutDrainsAndNoNewPitComesToBe) {
    std::mt19937 random(32);
    std::int64_t cuts = 0, left = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const auto ground = troubled_ground(random, 20);
        for (const CutLimits limits : {far_and_deep, CutLimits{.longest_m = 60, .deepest_m = 0.8}}) {
            auto cut = ground;
            const auto report = breach_depressions(cut, limits, {7, 1});
            const auto before = pits_of(ground), after = pits_of(cut);
            ASSERT_EQ(report.cuts + report.pits_left, static_cast<std::int64_t>(before.size())) << "trial " << trial;
            ASSERT_TRUE(std::ranges::includes(before, after)) << "trial " << trial;
            ASSERT_LE(static_cast<std::int64_t>(after.size()), report.pits_left) << "trial " << trial;
            cuts += report.cuts;
            left += report.pits_left;
        }
    }
    EXPECT_GT(cuts, 1000);
    EXPECT_GT(left, 100);
}

TEST(Breaching, GroundOnlyGoesDownAndFillingNeverRisesHigherThanWithoutIt) {
    const auto ground = rough_ground(150, 180, 4);
    const CutLimits limits{.longest_m = 40, .deepest_m = 1.5};
    auto cut = ground;
    const auto report = breach_depressions(cut, limits);
    const auto with = filled(cut), without = filled(ground);
    std::int64_t lowered = 0;
    double volume = 0, deepest = 0;
    for (std::int64_t r = 0; r < ground.rows(); ++r)
        for (std::int64_t c = 0; c < ground.columns(); ++c) {
            if (std::isnan(ground(r, c))) {
                ASSERT_TRUE(std::isnan(cut(r, c)));
                continue;
            }
            const double depth = static_cast<double>(ground(r, c)) - cut(r, c);
            ASSERT_GE(depth, 0);
            ASSERT_LE(with(r, c), without(r, c));
            lowered += depth > 0;
            volume += depth * 25;
            deepest = std::max(deepest, depth);
        }
    EXPECT_EQ(report.cells_lowered, lowered);
    EXPECT_NEAR(report.volume_m3, volume, 1e-6 * volume);
    EXPECT_FLOAT_EQ(static_cast<float>(report.deepest_m), static_cast<float>(deepest));
    EXPECT_LE(report.deepest_m, limits.deepest_m);
    EXPECT_LE(report.longest_m, limits.longest_m);
    EXPECT_GT(report.cuts, 50);
    EXPECT_NO_THROW(flow_directions(with));
}

TEST(Breaching, AnyTilesAndThreadsGiveTheSame) {
    const auto ground = rough_ground(230, 310, 3);
    const CutLimits limits{.longest_m = 60, .deepest_m = 2};
    auto first = ground;
    const auto expected = breach_depressions(first, limits, {1000, 1});
    for (const std::int64_t side : {9, 64, 100})
        for (const int threads : {1, 4}) {
            auto cut = ground;
            const auto report = breach_depressions(cut, limits, {side, threads});
            EXPECT_TRUE(same_bits(cut, first)) << "side " << side;
            EXPECT_EQ(report.cuts, expected.cuts);
            EXPECT_EQ(report.pits_left, expected.pits_left);
            EXPECT_EQ(report.cells_lowered, expected.cells_lowered);
            EXPECT_EQ(report.volume_m3, expected.volume_m3);
            EXPECT_EQ(report.deepest_m, expected.deepest_m);
            EXPECT_EQ(report.longest_m, expected.longest_m);
        }
}

TEST(Breaching, TroubledGroundIsTheSameInAnyTiles) {
    std::mt19937 random(33);
    for (int trial = 0; trial < 300; ++trial) {
        const auto ground = troubled_ground(random, 20);
        const CutLimits limits{.longest_m = 9, .deepest_m = 2};
        const auto expected = breached(ground, limits, {64, 1});
        for (const std::int64_t side : {1, 3, 5})
            ASSERT_TRUE(same_bits(breached(ground, limits, {side, 1}), expected)) << "trial " << trial;
    }
}

TEST(Breaching, RowsReadFromAStoreGiveTheSame) {
    const auto ground = rough_ground(90, 70, 8);
    const CutLimits limits{.longest_m = 30, .deepest_m = 2};
    const auto read = [&](std::int64_t first, Grid<float>& to) {
        for (std::int64_t r = 0; r < to.rows(); ++r) std::ranges::copy(ground.row(first + r), to.row(r).begin());
    };
    auto whole = ground;
    const auto report = breach_depressions(whole, limits);
    for (const std::int64_t side : {7, 32}) {
        const Cuts cuts = stored_cuts(ground.shape(), read, limits, {side, 2}, [](double) {});
        for (std::int64_t first = 0; first < 90; first += 40) {
            Grid<float> rows({70, std::min<std::int64_t>(40, 90 - first), 5}, Unset{});
            read(first, rows);
            lower_cells(cuts.cells, first, rows);
            for (std::int64_t r = 0; r < rows.rows(); ++r)
                for (std::int64_t c = 0; c < 70; ++c)
                    ASSERT_TRUE(rows(r, c) == whole(first + r, c) || std::isnan(whole(first + r, c)));
        }
        EXPECT_EQ(cuts.report.volume_m3, report.volume_m3);
        EXPECT_EQ(cuts.report.cells_lowered, report.cells_lowered);
        EXPECT_EQ(cuts.report.pits_left, report.pits_left);
    }
}

TEST(Breaching, TurningGroundWithoutTiesTurnsTheResult) {
    std::mt19937 random(34);
    std::uniform_real_distribution<float> height(100, 104);
    for (int trial = 0; trial < 40; ++trial) {
        Grid<float> ground({31, 23, 1});
        for (float& z : ground.values()) z = height(random);
        ground(11, 9) = no_value;
        const CutLimits limits{.longest_m = 7, .deepest_m = 1.5};
        const auto cut = breached(ground, limits);
        ASSERT_TRUE(same_bits(breached(transposed(ground), limits), transposed(cut))) << "trial " << trial;
        ASSERT_TRUE(same_bits(breached(quarter_turned(ground), limits), quarter_turned(cut))) << "trial " << trial;
    }
}

TEST(Breaching, GroundThatDrainsIsLeftAlone) {
    const auto level = filled(rough_ground(100, 100, 9));
    auto cut = level;
    EXPECT_EQ(breach_depressions(cut, {.longest_m = 50, .deepest_m = 2}).cuts, 0);
    EXPECT_TRUE(same_bits(cut, level));
}

TEST(Breaching, LimitsOutOfRangeAreRefused) {
    Grid<float> ground({9, 7, 1}, 0);
    EXPECT_THROW(breach_depressions(ground, {.longest_m = 0, .deepest_m = 1}), std::invalid_argument);
    EXPECT_THROW(breach_depressions(ground, {.longest_m = 10, .deepest_m = 0}), std::invalid_argument);
    EXPECT_THROW(breach_depressions(ground, {.longest_m = 10, .deepest_m = 101}), std::invalid_argument);
    EXPECT_THROW(breach_depressions(ground, {.longest_m = 501, .deepest_m = 1}), std::invalid_argument);
    EXPECT_THROW(breach_depressions(ground, {.longest_m = NAN, .deepest_m = 1}), std::invalid_argument);
}

}  // namespace
