/// Distance to a channel along flow directions: by eye on small grids, and against walking each way on random ones.
#include "terrain/flow_distance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "terrain/accumulation.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"

namespace soilhold::terrain {
namespace {

using enum Direction;

Grid<Direction> directions(std::int64_t columns, const std::vector<Direction>& ways) {
    Grid<Direction> grid({columns, static_cast<std::int64_t>(ways.size()) / columns, 10});
    std::ranges::copy(ways, grid.values().begin());
    return grid;
}

/// Cells through which so many cells or more drain.
Grid<std::uint8_t> channels(const Grid<Direction>& ways, double cells) {
    const Grid<double> drained = accumulate(ways);
    Grid<std::uint8_t> grid(ways.shape(), 0);
    for (std::size_t i = 0; i < grid.values().size(); ++i) grid.values()[i] = drained.values()[i] >= cells ? 1 : 0;
    return grid;
}

TEST(FlowDistance, CountsStepsStraightAndAcrossCorners) {
    // Three cells run south-east and east into the cell at the south-east, a channel of four cells.
    const auto ways = directions(2, {southeast, south, east, outlet});
    const Grid<float> distance = flow_distance(ways, channels(ways, 4));
    EXPECT_FLOAT_EQ(distance(0, 0), static_cast<float>(10 * std::sqrt(2.0)));
    EXPECT_FLOAT_EQ(distance(0, 1), 10);
    EXPECT_FLOAT_EQ(distance(1, 0), 10);
    EXPECT_FLOAT_EQ(distance(1, 1), 0);
}

TEST(FlowDistance, WaterThatLeavesTheMapFirstHasNone) {
    const auto ways = directions(3, {east, east, outlet, none, east, outlet});
    const Grid<float> distance = flow_distance(ways, channels(ways, 3));
    EXPECT_FLOAT_EQ(distance(0, 0), 20);
    EXPECT_FLOAT_EQ(distance(0, 2), 0);
    EXPECT_TRUE(std::isnan(distance(1, 0)));
    EXPECT_TRUE(std::isnan(distance(1, 1)));
    EXPECT_TRUE(std::isnan(distance(1, 2)));
}

TEST(FlowDistance, ACircleIsRefused) {
    const auto ways = directions(2, {east, west});
    EXPECT_THROW(flow_distance(ways, Grid<std::uint8_t>(ways.shape(), 0)), std::invalid_argument);
    EXPECT_THROW(flow_distance(ways, Grid<std::uint8_t>({3, 3, 10}, 1)), std::invalid_argument);
}

TEST(FlowDistance, IsTheLengthOfTheWayWalked) {
    std::mt19937 draw(7);
    Grid<float> heights({40, 30, 5});
    for (float& height : heights.values()) height = std::uniform_real_distribution<float>(0, 9)(draw);
    heights(11, 11) = no_value;
    fill_depressions(heights);
    const Grid<Direction> ways = flow_directions(heights);
    const Grid<double> drained = accumulate(ways);
    const Grid<float> distance = flow_distance(ways, channels(ways, 12));
    int known = 0;
    for (std::int64_t row = 0; row < 30; ++row)
        for (std::int64_t column = 0; column < 40; ++column) {
            std::int64_t r = row, c = column;
            double length = 0;
            while (leads_on(ways(r, c)) && drained(r, c) < 12) {
                const Direction way = ways(r, c);
                length += diagonal(way) ? 5 * std::sqrt(2.0) : 5;
                r += row_step(way);
                c += column_step(way);
            }
            if (ways(r, c) != none && drained(r, c) >= 12) {
                EXPECT_NEAR(distance(row, column), length, 1e-3);
                ++known;
            } else {
                EXPECT_TRUE(std::isnan(distance(row, column)));
            }
        }
    EXPECT_GT(known, 100);
}

}  // namespace
}  // namespace soilhold::terrain
