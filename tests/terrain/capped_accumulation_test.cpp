#include "terrain/capped_accumulation.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "terrain/accumulation.h"
#include "terrain/d_infinity.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"
#include "terrain/multiple_flow.h"
#include "terrain/turned.h"

namespace {

using namespace soilhold::terrain;

const std::vector<std::pair<std::string, ShareRule>> all_rules{
    {"single", single_flow}, {"freeman", freeman_flow}, {"quinn", quinn_flow}, {"d-infinity", d_infinity_flow}};

struct Drained {
    explicit Drained(Grid<float> ground) : filled(std::move(ground)) {
        fill_depressions(filled);
        directions = flow_directions(filled);
    }
    CappedGround capped(const Grid<std::uint8_t>* barriers = nullptr) const { return {filled, directions, barriers}; }
    Grid<float> filled;
    Grid<Direction> directions;
};

Grid<float> random_ground(std::mt19937& random, std::int64_t rows, std::int64_t columns) {
    Grid<float> grid({columns, rows, 2});
    for (float& z : grid.values()) z = static_cast<float>(random() % 10000000) / 1000;
    return grid;
}

std::vector<double> values(const Grid<double>& grid) { return {grid.values().begin(), grid.values().end()}; }

// The oracle: the definition word by word, on the whole grid in doubles.
Grid<double> by_definition(const CappedGround& ground, const ShareRule& rule, std::int64_t steps) {
    const Shape shape = ground.filled.shape();
    Grid<double> sums(shape, 0), none(shape, 0);
    for (std::int64_t k = 0; k <= steps; ++k) {
        const auto before = k == 0 ? none : sums;
        for (std::int64_t r = 0; r < shape.rows; ++r)
            for (std::int64_t c = 0; c < shape.columns; ++c)
                sums(r, c) = ground.directions(r, c) == Direction::none ? 0 : 1;
        for (std::int64_t r = 0; r < shape.rows; ++r)
            for (std::int64_t c = 0; c < shape.columns; ++c) {
                auto shares = rule(neighbours_of(ground.filled, r, c), ground.directions(r, c));
                if (!shares.any()) shares = single_flow_shares(ground.directions(r, c));
                for (std::size_t w = 0; w < 8; ++w) {
                    if (!(shares.way[w] > 0)) continue;
                    const std::int64_t row = r + row_steps[w], column = c + column_steps[w];
                    if (ground.barriers && (*ground.barriers)(row, column)) continue;
                    sums(row, column) += static_cast<double>(shares.way[w]) * before(r, c);
                }
            }
    }
    return sums;
}

TEST(CappedAccumulation, ALineToCheckByEye) {
    const Drained line(ground_of({{6, 5, 4, 3, 2, 1}}));
    EXPECT_EQ(values(capped_accumulation(line.capped(), single_flow, 0)), (std::vector<double>{1, 1, 1, 1, 1, 1}));
    EXPECT_EQ(values(capped_accumulation(line.capped(), single_flow, 2)), (std::vector<double>{1, 2, 3, 3, 3, 3}));
    EXPECT_EQ(values(capped_accumulation(line.capped(), single_flow, 9)), (std::vector<double>{1, 2, 3, 4, 5, 6}));
}

TEST(CappedAccumulation, AForkToCheckByEye) {
    // The top sends half its water down each side (equal falls), and both come together at the foot.
    const Drained fork(ground_of({{3, 2, -9}, {2, -9, 1}, {-9, 1, 0}}));
    const auto sums = capped_accumulation(fork.capped(), freeman_flow, 8);
    EXPECT_EQ(sums(0, 0), 1);
    EXPECT_EQ(sums(0, 1), 1.5);
    EXPECT_EQ(sums(1, 0), 1.5);
    EXPECT_EQ(sums(1, 2), 2.5);
    EXPECT_EQ(sums(2, 2), 6);
    EXPECT_EQ(sums(1, 1), 0);
    EXPECT_EQ(capped_accumulation(fork.capped(), freeman_flow, 2)(2, 2), 5);  // the top lies three steps off
}

TEST(CappedAccumulation, AValleyHasTheGroundWithinItsSteps) {
    // Steep sides of 6 cells fall straight to the bed in column 6, which falls gently southward.
    Grid<float> valley({13, 20, 1});
    for (std::int64_t r = 0; r < 20; ++r)
        for (std::int64_t c = 0; c < 13; ++c) valley(r, c) = static_cast<float>(16 * std::abs(c - 6) + 40 - r);
    const Drained drained(valley);
    for (const std::int64_t steps : {0, 1, 3, 8, 30}) {
        const auto sums = capped_accumulation(drained.capped(), single_flow, steps, {5, 1});
        for (std::int64_t r = 0; r < 20; ++r) {
            double expected = 0;  // row by row upstream, as far to each side as the steps left reach
            for (std::int64_t up = 0; up <= std::min(r, steps); ++up)
                expected += static_cast<double>(1 + 2 * std::min<std::int64_t>(6, steps - up));
            EXPECT_EQ(sums(r, 6), expected) << r << ", steps " << steps;
        }
    }
}

TEST(CappedAccumulation, KeepsToItsDefinitionOnAnyGroundAndTiles) {
    std::mt19937 random(9);
    for (int trial = 0; trial < 60; ++trial) {
        const Drained drained(troubled_ground(random, 16));
        Grid<std::uint8_t> barriers(drained.filled.shape(), 0);
        for (auto& b : barriers.values()) b = random() % 12 == 0;
        const std::int64_t steps = static_cast<std::int64_t>(random() % 9);
        for (const auto& [name, rule] : all_rules) {
            const auto expected = by_definition(drained.capped(&barriers), rule, steps);
            const auto whole = capped_accumulation(drained.capped(&barriers), rule, steps, {1000, 1});
            EXPECT_LT(largest_difference(whole, expected), 1e-6) << name;
            for (const std::int64_t side : {1, 3, 7})
                EXPECT_TRUE(same_bits(capped_accumulation(drained.capped(&barriers), rule, steps, {side, 2}), whole))
                    << name << ", side " << side;
        }
    }
}

TEST(CappedAccumulation, OfSingleDirectionsWithStepsEnoughIsTheFullSum) {
    std::mt19937 random(10);
    for (int trial = 0; trial < 60; ++trial) {
        const Drained drained(troubled_ground(random, 16));
        Grid<std::uint8_t> barriers(drained.filled.shape(), 0);
        for (auto& b : barriers.values()) b = random() % 12 == 0;
        const auto full = accumulate(drained.directions, {nullptr, &barriers});
        EXPECT_TRUE(same_bits(
            capped_accumulation(drained.capped(&barriers), single_flow, drained.filled.shape().cells()), full));
    }
}

TEST(CappedAccumulation, NothingIsLostOrMadeWhereWaterSpreads) {
    std::mt19937 random(11);
    for (int trial = 0; trial < 20; ++trial) {
        const Drained drained(random_ground(random, 14, 11));
        for (const auto& [name, rule] : all_rules) {
            const auto sums = capped_accumulation(drained.capped(), rule, 14 * 11);
            double left = 0;
            for (std::int64_t r = 0; r < 14; ++r)
                for (std::int64_t c = 0; c < 11; ++c)
                    if (drained.directions(r, c) == Direction::outlet) left += sums(r, c);
            EXPECT_NEAR(left, 14 * 11, 1e-4) << name;
        }
    }
}

// Ground that falls southward at every step, without level places, pits or equal ways.
Grid<float> tilted_ground(std::mt19937& random, std::int64_t rows, std::int64_t columns) {
    Grid<float> grid({columns, rows, 2});
    for (std::int64_t r = 0; r < rows; ++r)
        for (std::int64_t c = 0; c < columns; ++c)
            grid(r, c) = static_cast<float>(1000 - 2 * r) + static_cast<float>(random() % 100000) / 100000;
    return grid;
}

TEST(CappedAccumulation, OnAConeAndADomeWaterSpreadsEvenly) {
    // Round ground sheds water outward: within the distance d lie pi d^2, over a contour of 2 pi d, so d/2 crosses each
    // metre of it. In cells, what crosses is a cell's sum times its water's mean step outward, half a step further on.
    const auto round = [](bool dome) {
        Grid<float> grid({101, 101, 1});
        for (std::int64_t r = 0; r < 101; ++r)
            for (std::int64_t c = 0; c < 101; ++c) {
                const double d = std::hypot(static_cast<double>(r - 50), static_cast<double>(c - 50));
                grid(r, c) = static_cast<float>(dome ? std::sqrt(150.0 * 150 - d * d) : 100 - d);
            }
        return grid;
    };
    for (const bool dome : {false, true})
        for (const auto& [name, rule] : all_rules) {
            if (name == "single") continue;  // a single way can't spread
            const Drained drained(round(dome));
            const auto sums = capped_accumulation(drained.capped(), rule, 150);
            double mean = 0, square = 0, cells = 0;
            for (std::int64_t r = 0; r < 101; ++r)
                for (std::int64_t c = 0; c < 101; ++c) {
                    const auto x = static_cast<double>(c - 50), y = static_cast<double>(r - 50);
                    const double d = std::hypot(x, y);
                    if (d < 20 || d > 45) continue;
                    const auto shares = rule(neighbours_of(drained.filled, r, c), drained.directions(r, c));
                    double step = 0;
                    for (std::size_t k = 0; k < 8; ++k)
                        step += static_cast<double>(shares.way[k]) * (column_steps[k] * x + row_steps[k] * y) / d;
                    const double ratio = sums(r, c) * step / ((d + step / 2) / 2);
                    mean += ratio, cells += 1, square += (ratio - 1) * (ratio - 1);
                }
            EXPECT_NEAR(mean / cells, 1, 0.02) << name;
            // Down the axes and diagonals the two ways of D-infinity keep strands of their own.
            EXPECT_LT(std::sqrt(square / cells), name == "d-infinity" ? 0.2 : 0.03) << name;
        }
}

TEST(CappedAccumulation, ATurnedGridHasTheTurnedSums) {
    std::mt19937 random(12);
    for (int trial = 0; trial < 20; ++trial) {
        const auto ground = tilted_ground(random, 17, 12);
        const auto across = transposed(ground), turned = quarter_turned(ground);
        const auto ways = flow_directions(ground), ways_across = flow_directions(across),
                   ways_turned = flow_directions(turned);
        const CappedGround here{ground, ways};
        for (const auto& [name, rule] : all_rules) {
            const auto sums = capped_accumulation(here, rule, 9);
            EXPECT_LT(largest_difference(capped_accumulation({across, ways_across}, rule, 9), transposed(sums)), 2e-6)
                << name;
            EXPECT_LT(largest_difference(capped_accumulation({turned, ways_turned}, rule, 9), quarter_turned(sums)),
                      2e-6)
                << name;
        }
    }
}

TEST(CappedAccumulation, ABarrierMakesTwoFieldsOfOne) {
    std::mt19937 random(13);
    const auto ground = tilted_ground(random, 16, 9);  // a barrier lies all across
    Grid<std::uint8_t> barriers(ground.shape(), 0);
    for (std::int64_t c = 0; c < 9; ++c) barriers(10, c) = 1;
    const Drained drained(ground);
    for (const auto& [name, rule] : all_rules) {
        const auto sums = capped_accumulation(drained.capped(&barriers), rule, 20);
        auto changed = drained;
        for (std::int64_t c = 0; c < 9; ++c) {
            EXPECT_EQ(sums(10, c), 1);
            for (std::int64_t r = 0; r < 10; ++r) changed.filled(r, c) += 1000.0F * static_cast<float>((r + c) % 3 + 1);
        }
        changed.directions = flow_directions(changed.filled);
        // Whatever the ground above the barrier, below it the sums stay.
        const auto other = capped_accumulation(changed.capped(&barriers), rule, 20);
        for (std::int64_t r = 10; r < 16; ++r)
            for (std::int64_t c = 0; c < 9; ++c) EXPECT_EQ(other(r, c), sums(r, c)) << name;
    }
}

TEST(CappedAccumulation, StepsAreWholeCells) {
    EXPECT_EQ(steps_within(122, 5), 24);
    EXPECT_EQ(steps_within(0.3, 0.1), 3);
    EXPECT_EQ(steps_within(1, 30), 0);
    EXPECT_THROW(steps_within(0, 5), std::invalid_argument);
    EXPECT_THROW(steps_within(122, NAN), std::invalid_argument);
}

TEST(CappedAccumulation, GridsOfOtherShapesAndStepsOutOfRangeAreRefused) {
    const Drained drained(ground_of({{3, 2}, {2, 1}}));
    EXPECT_THROW(capped_accumulation(drained.capped(), single_flow, -1), std::invalid_argument);
    EXPECT_THROW(capped_accumulation(drained.capped(), single_flow, 5000), std::invalid_argument);
    const Grid<Direction> other({3, 3, 1}, Direction::outlet);
    EXPECT_THROW(capped_accumulation({drained.filled, other}, single_flow, 1), std::invalid_argument);
}

}  // namespace
