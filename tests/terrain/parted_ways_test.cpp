/// Ways cut at the edges of parts: by eye, and against each part cut out of the grid.
#include "terrain/parted_ways.h"

#include <gtest/gtest.h>

#include <random>

#include "terrain/accumulation.h"

namespace soilhold::terrain {
namespace {

using enum Direction;

TEST(PartedWays, EndAtTheEdgeOfAPart) {
    Grid<Direction> ways({3, 2, 10}, east);
    ways(0, 1) = southeast;
    ways(0, 2) = none;
    ways(1, 2) = outlet;
    Grid<std::int32_t> parts({3, 2, 10}, -1);
    parts(0, 1) = parts(1, 2) = 7;
    const Grid<Direction> parted = parted_ways(ways, parts);
    EXPECT_EQ(parted(0, 0), outlet);     // into part 7
    EXPECT_EQ(parted(0, 1), southeast);  // within it, across a corner
    EXPECT_EQ(parted(0, 2), none);
    EXPECT_EQ(parted(1, 0), east);  // within the ground of no field
    EXPECT_EQ(parted(1, 1), outlet);
    EXPECT_EQ(parted(1, 2), outlet);
}

TEST(PartedWays, GiveThePartBelowAnEdgeTheGroundItHasAlone) {
    std::mt19937 random(3);
    Grid<Direction> whole({6, 6, 10});
    for (std::int64_t row = 0; row < 6; ++row)
        for (std::int64_t column = 0; column < 6; ++column) {
            const auto sideways = column == 0 ? 0U : column == 5 ? 1U : random() % 2;  // south, or south to a side
            whole(row, column) = row == 5            ? outlet
                                 : random() % 3 == 0 ? south
                                 : sideways == 0     ? (column == 5 ? south : southeast)
                                                     : (column == 0 ? south : southwest);
        }
    Grid<std::int32_t> parts(whole.shape(), 1);
    Grid<Direction> lower({6, 3, 10});
    for (std::int64_t row = 3; row < 6; ++row)
        for (std::int64_t column = 0; column < 6; ++column) {
            parts(row, column) = 2;
            lower(row - 3, column) = whole(row, column);
        }
    for (const std::int64_t side : {2, 6}) {
        const Grid<double> in_whole = accumulate(parted_ways(whole, parts, {side, 2}), {}, {side, 2});
        const Grid<double> alone = accumulate(lower);
        for (std::int64_t row = 0; row < 3; ++row)
            for (std::int64_t column = 0; column < 6; ++column)
                EXPECT_EQ(in_whole(row + 3, column), alone(row, column)) << row << ", " << column;
    }
}

TEST(PartedWays, NeedGridsOfOneShape) {
    EXPECT_THROW(parted_ways(Grid<Direction>({2, 2, 1}, none), Grid<std::int32_t>({2, 3, 1})), std::invalid_argument);
    EXPECT_THROW(parted_ways(Grid<Direction>({2, 2, 1}, east), Grid<std::int32_t>({2, 2, 1})), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::terrain
