#include "terrain/accumulation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"

namespace {

using namespace soilhold::terrain;

Grid<Direction> drained(Grid<float> ground) {
    fill_depressions(ground);
    return flow_directions(ground);
}

std::vector<std::vector<double>> table(const Grid<double>& sums) {
    std::vector<std::vector<double>> rows;
    for (std::int64_t r = 0; r < sums.rows(); ++r) rows.emplace_back(sums.row(r).begin(), sums.row(r).end());
    return rows;
}

using Table = std::vector<std::vector<double>>;

// The oracle: each cell's weight carried down to its outlet, one cell after the other.
Grid<double> carried_down(const Grid<Direction>& directions, const AccumulationInputs& inputs) {
    Grid<double> sums(directions.shape(), 0);
    for (std::int64_t row = 0; row < sums.rows(); ++row)
        for (std::int64_t column = 0; column < sums.columns(); ++column) {
            if (directions(row, column) == Direction::none) continue;
            const double weight = inputs.weights ? double{(*inputs.weights)(row, column)} : 1;
            std::int64_t r = row, c = column;
            for (;;) {
                sums(r, c) += weight;
                const Direction d = directions(r, c);
                if (!leads_on(d)) break;
                r += row_step(d);
                c += column_step(d);
                if (inputs.barriers && (*inputs.barriers)(r, c)) break;
            }
        }
    return sums;
}

TEST(Accumulation, ASlopeCountsTheCellsAbove) {
    const auto directions = drained(ground_of({{4, 3, 2, 1}, {4, 3, 2, 1}}));
    EXPECT_EQ(table(accumulate(directions)), (Table{{1, 2, 3, 4}, {1, 2, 3, 4}}));
}

TEST(Accumulation, AValleyGathersBothSides) {
    const auto directions = drained(ground_of({{9, 5, 1, 5, 9},  //
                                               {9.5, 5.5, 1.5, 5.5, 9.5},
                                               {10, 6, 2, 6, 10}}));
    const Table expected{{1, 2, 15, 2, 1}, {1, 2, 10, 2, 1}, {1, 2, 5, 2, 1}};
    for (const std::int64_t side : {1, 2, 3, 9}) EXPECT_EQ(table(accumulate(directions, {}, {side, 1})), expected);
}

TEST(Accumulation, WeightsAreSummedInsteadOfCells) {
    const auto directions = drained(ground_of({{4, 3, 2, 1}}));
    const auto weights = ground_of({{0.5, 0, 2, 1}});
    EXPECT_EQ(table(accumulate(directions, {&weights, nullptr})), (Table{{0.5, 0.5, 2.5, 3.5}}));
}

TEST(Accumulation, ABarrierStartsAnew) {
    const auto directions = drained(ground_of({{6, 5, 4, 3, 2, 1}}));
    Grid<std::uint8_t> barriers(directions.shape(), 0);
    barriers(0, 3) = 1;
    for (const std::int64_t side : {1, 2, 3, 6})
        EXPECT_EQ(table(accumulate(directions, {nullptr, &barriers}, {side, 1})), (Table{{1, 2, 3, 1, 2, 3}}));
}

TEST(Accumulation, CellsWithoutAValueHaveNone) {
    const auto directions = drained(ground_of({{3, 2, -9, 5}}));
    EXPECT_EQ(table(accumulate(directions)), (Table{{1, 2, 0, 1}}));
}

TEST(Accumulation, AConeShedsAllItsGroundAtItsFoot) {
    Grid<float> cone({51, 51, 1});
    for (std::int64_t r = 0; r < 51; ++r)
        for (std::int64_t c = 0; c < 51; ++c)
            cone(r, c) = -static_cast<float>(std::hypot(static_cast<double>(r - 25), static_cast<double>(c - 25)));
    const auto directions = drained(cone);
    const auto sums = accumulate(directions, {}, {16, 2});
    double left = 0;
    for (std::int64_t r = 0; r < 51; ++r)
        for (std::int64_t c = 0; c < 51; ++c)
            if (!leads_on(directions(r, c))) left += sums(r, c);
    EXPECT_EQ(left, 51 * 51);
    EXPECT_EQ(sums(25, 25), 1);
}

TEST(Accumulation, AnyTilesGiveWhatCarryingEachCellDownGives) {
    std::mt19937 random(40);
    for (int trial = 0; trial < 800; ++trial) {
        const auto ground = troubled_ground(random, 24);
        const auto directions = drained(ground);
        Grid<float> weights(ground.shape(), 0);
        for (float& w : weights.values()) w = static_cast<float>(random() % 1000) / 8;
        Grid<std::uint8_t> barriers(ground.shape(), 0);
        for (auto& b : barriers.values()) b = random() % 12 == 0;
        const AccumulationInputs plain{}, all{&weights, &barriers};
        const auto expected = table(carried_down(directions, plain)),
                   expected_all = table(carried_down(directions, all));
        for (const std::int64_t side : {1, 2, 3, 5, 8, 64})
            for (const int threads : {1, 4}) {
                if (threads > 1 && trial % 8) continue;
                ASSERT_EQ(table(accumulate(directions, plain, {side, threads})), expected)
                    << trial << ", side " << side;
                ASSERT_EQ(table(accumulate(directions, all, {side, threads})), expected_all)
                    << trial << ", side " << side;
            }
    }
}

TEST(Accumulation, NothingIsLostOrMadeOnRoughHills) {
    auto ground = rough_ground(300, 410, 7);
    const auto directions = drained(ground);
    // Thirds can't be written in binary: sums of them are exact only because weights go in whole steps.
    Grid<float> weights(ground.shape(), 0);
    std::mt19937 random(41);
    for (float& w : weights.values()) w = static_cast<float>(random() % 100) / 3;
    double brought = 0, left = 0;
    const auto first = accumulate(directions, {&weights, nullptr}, {1000, 1});
    for (std::int64_t r = 0; r < 300; ++r)
        for (std::int64_t c = 0; c < 410; ++c) {
            if (directions(r, c) != Direction::none)
                brought += std::nearbyint(double{weights(r, c)} * 1048576) / 1048576;
            if (directions(r, c) == Direction::outlet) left += first(r, c);
        }
    EXPECT_EQ(left, brought);
    for (const std::int64_t side : {3, 17, 64, 256})
        for (const int threads : {1, 2, 4})
            EXPECT_EQ(table(accumulate(directions, {&weights, nullptr}, {side, threads})), table(first)) << side;
}

TEST(Accumulation, DirectionsInACircleAreRefused) {
    Grid<Direction> circle({2, 2, 1});
    circle(0, 0) = Direction::east;
    circle(0, 1) = Direction::south;
    circle(1, 1) = Direction::west;
    circle(1, 0) = Direction::north;
    for (const std::int64_t side : {1, 2}) EXPECT_THROW(accumulate(circle, {}, {side, 1}), std::invalid_argument);
}

TEST(Accumulation, ADirectionOutOfTheGridIsRefused) {
    const Grid<Direction> east({2, 2, 1}, Direction::east);
    EXPECT_THROW(accumulate(east), std::invalid_argument);
}

TEST(Accumulation, WeightsThatCantBeSummedExactlyAreRefused) {
    const auto directions = drained(ground_of({{3, 2, 1}}));
    for (const float bad : {-1.0F, INFINITY, 1e10F}) {
        Grid<float> weights(directions.shape(), bad);
        EXPECT_THROW(accumulate(directions, {&weights, nullptr}), std::invalid_argument) << bad;
    }
}

TEST(Accumulation, GridsOfOtherShapesAreRefused) {
    const auto directions = drained(ground_of({{3, 2, 1}}));
    const Grid<float> weights({2, 2, 1}, 1);
    EXPECT_THROW(accumulate(directions, {&weights, nullptr}), std::invalid_argument);
}

}  // namespace
