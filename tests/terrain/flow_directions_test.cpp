#include "terrain/flow_directions.h"

#include <gtest/gtest.h>

#include <cmath>
#include <deque>
#include <random>
#include <string>
#include <vector>

#include "terrain/depressions.h"
#include "terrain/made_ground.h"

namespace {

using namespace soilhold::terrain;

// Directions as a picture: > v < ^ and for the diagonals 3 (southeast) 1 (southwest) 7 (northwest) 9 (northeast), as
// on a keypad; o an outlet, . no value.
std::vector<std::string> picture(const Grid<Direction>& directions) {
    std::vector<std::string> rows;
    for (std::int64_t r = 0; r < directions.rows(); ++r) {
        rows.emplace_back();
        for (std::int64_t c = 0; c < directions.columns(); ++c)
            rows.back() += ".>v<^3179o"[static_cast<std::size_t>(directions(r, c))];
    }
    return rows;
}

using Rows = std::vector<std::string>;

TEST(FlowDirections, WaterTakesTheSteepestWayNotTheLowestCell) {
    // From 9 in the middle: 5 to the east falls 4 over 1, 4 at the corner 5 over 1.41 = 3.5.
    const auto ground = ground_of({{9, 9, 9},  //
                                   {9, 9, 5},
                                   {9, 9, 4}});
    EXPECT_EQ(flow_directions(ground)(1, 1), Direction::east);
}

TEST(FlowDirections, ASlopeFallsStraightToItsFoot) {
    const auto ground = ground_of({{4, 3, 2, 1},  //
                                   {4, 3, 2, 1},
                                   {4, 3, 2, 1}});
    EXPECT_EQ(picture(flow_directions(ground)), (Rows{">>>o", ">>>o", ">>>o"}));
}

TEST(FlowDirections, OfEqualWaysTheFirstIsTaken) {
    // A peak: every side is as steep; east comes first.
    const auto ground = ground_of({{1, 2, 1},  //
                                   {2, 9, 2},
                                   {1, 2, 1}});
    EXPECT_EQ(flow_directions(ground)(1, 1), Direction::east);
    EXPECT_EQ(picture(flow_directions(ground)), (Rows{"o>o", "v>v", "o>o"}));
}

TEST(FlowDirections, AValleyGathersAndFallsAlongItsFloor) {
    const auto ground = ground_of({{9, 5, 1, 5, 9},  //
                                   {9.5, 5.5, 1.5, 5.5, 9.5},
                                   {10, 6, 2, 6, 10}});
    EXPECT_EQ(picture(flow_directions(ground)), (Rows{">>o<<", ">>^<<", ">>^<<"}));
}

TEST(FlowDirections, ASaddlePartsTheWaters) {
    // High in the north and south, low in the west and east: the middle column goes east (the tie's first), the
    // ridge cells go down to the saddle.
    const auto ground = ground_of({{5, 7, 8, 7, 5},  //
                                   {3, 5.5, 6, 5.5, 3},
                                   {5, 7, 8, 7, 5}});
    const auto rows = picture(flow_directions(ground));
    EXPECT_EQ(rows[1], "o<>>o");
    EXPECT_EQ(rows[0][2], 'v');
    EXPECT_EQ(rows[2][2], '^');
}

TEST(FlowDirections, ALevelFloorDrainsToItsDoorAndOffTheWalls) {
    // The floor at 2 leaves through the 1 in the east wall. Its last column falls to that itself; the column before
    // goes straight to the last; further west the rows along the walls turn into the middle, which runs east.
    const auto ground = ground_of({{9, 9, 9, 9, 9, 9},  //
                                   {9, 2, 2, 2, 2, 9},
                                   {9, 2, 2, 2, 2, 1},
                                   {9, 2, 2, 2, 2, 9},
                                   {9, 9, 9, 9, 9, 9}});
    const auto rows = picture(flow_directions(ground));
    EXPECT_EQ(rows[1].substr(1, 4), "33>3");
    EXPECT_EQ(rows[2].substr(1, 4), ">>>>");
    EXPECT_EQ(rows[3].substr(1, 4), "99>9");
}

TEST(FlowDirections, LevelGroundAtAHoleRunsIntoTheHole) {
    const auto ground = ground_of({{9, 9, 9, 9},  //
                                   {9, 2, 2, -9},
                                   {9, 9, 9, 9}});
    const auto rows = picture(flow_directions(ground));
    EXPECT_EQ(rows[1].substr(1), ">o.");
}

TEST(FlowDirections, AnInfiniteHeightIsNoHeight) {
    auto ground = ground_of({{9, 9, 9, 9, 9},  //
                             {9, 3, 2, 7, 9},
                             {9, 9, 9, 9, 9}});
    for (const float strange : {INFINITY, -INFINITY}) {
        ground(1, 3) = strange;
        auto level = ground;
        EXPECT_EQ(fill_depressions(level, {2, 1}).cells_raised, 0);
        EXPECT_EQ(picture(flow_directions(level, {2, 1}))[1], ">>o.o");
    }
}

TEST(FlowDirections, GroundThatWasNotFilledIsRefused) {
    const auto pit = ground_of({{9, 9, 9}, {9, 1, 9}, {9, 9, 9}});
    for (const std::int64_t side : {1, 2, 3}) EXPECT_THROW(flow_directions(pit, {side, 1}), std::invalid_argument);
}

// The same rules worked on the whole grid at once, the plain way.
Grid<Direction> plain_directions(const Grid<float>& z) {
    const auto value = [&](std::int64_t r, std::int64_t c) { return z.shape().holds(r, c) ? z(r, c) : no_value; };
    Grid<Direction> result(z.shape());
    Grid<std::int32_t> toward(z.shape(), 0), away(z.shape(), 0);
    const auto each = [&](auto visit) {
        for (std::int64_t r = 0; r < z.rows(); ++r)
            for (std::int64_t c = 0; c < z.columns(); ++c) visit(r, c);
    };
    const auto flat = [&](std::int64_t r, std::int64_t c) {
        return z.shape().holds(r, c) && !std::isnan(z(r, c)) && result(r, c) == Direction::none;
    };
    each([&](std::int64_t r, std::int64_t c) {
        float steepest = 0;
        bool edge = false;
        for (std::size_t k = 0; k < 8; ++k) {
            const float other = value(r + row_steps[k], c + column_steps[k]);
            const float fall = (z(r, c) - other) * (k < 4 ? 1.0F : 0.70710678F);
            edge = edge || std::isnan(other);
            if (fall > steepest) steepest = fall, result(r, c) = static_cast<Direction>(k + 1);
        }
        if (steepest == 0 && edge && !std::isnan(z(r, c))) result(r, c) = Direction::outlet;
    });
    const auto spread = [&](Grid<std::int32_t>& count, auto starts) {
        std::deque<std::pair<std::int64_t, std::int64_t>> queue;
        each([&](std::int64_t r, std::int64_t c) {
            for (std::size_t k = 0; k < 8 && flat(r, c) && !count(r, c); ++k)
                if (starts(r, c, r + row_steps[k], c + column_steps[k])) count(r, c) = 1, queue.emplace_back(r, c);
        });
        for (; !queue.empty(); queue.pop_front())
            for (std::size_t k = 0; k < 8; ++k) {
                const auto [row, column] = queue.front();
                const std::int64_t r = row + row_steps[k], c = column + column_steps[k];
                if (flat(r, c) && !count(r, c)) count(r, c) = count(row, column) + 1, queue.emplace_back(r, c);
            }
    };
    spread(toward, [&](auto r, auto c, auto r2, auto c2) { return value(r2, c2) == z(r, c) && !flat(r2, c2); });
    spread(away, [&](auto r, auto c, auto r2, auto c2) { return value(r2, c2) > z(r, c); });
    Grid<Direction> done = result;
    each([&](std::int64_t r, std::int64_t c) {
        if (!flat(r, c)) return;
        std::int32_t least = 1 << 30;
        for (std::size_t k = 0; k < 8; ++k) {
            const std::int64_t r2 = r + row_steps[k], c2 = c + column_steps[k];
            if (value(r2, c2) != z(r, c)) continue;
            const std::int32_t rank = flat(r2, c2) ? 2 * toward(r2, c2) - away(r2, c2) : -(1 << 30);
            if (rank < least) least = rank, done(r, c) = static_cast<Direction>(k + 1);
        }
    });
    return done;
}

// How many cells do not end at an outlet, go up, or pass over a steeper way.
int wrong_cells(const Grid<float>& z, const Grid<Direction>& directions) {
    int wrong = 0;
    for (std::int64_t row = 0; row < z.rows(); ++row)
        for (std::int64_t column = 0; column < z.columns(); ++column) {
            if (std::isnan(z(row, column))) {
                wrong += directions(row, column) != Direction::none;
                continue;
            }
            double steepest = 0;
            for (std::size_t k = 0; k < 8; ++k) {
                const std::int64_t r = row + row_steps[k], c = column + column_steps[k];
                if (z.shape().holds(r, c) && z(r, c) < z(row, column))
                    steepest = std::max(steepest, (double{z(row, column)} - z(r, c)) / (k < 4 ? 1 : std::sqrt(2)));
            }
            const Direction own = directions(row, column);
            if (leads_on(own)) {
                const double fall = double{z(row, column)} - z(row + row_step(own), column + column_step(own));
                wrong += fall < 0 || fall / (diagonal(own) ? std::sqrt(2) : 1) < steepest * (1 - 1e-6);
            } else {
                wrong += steepest > 0;
            }
            std::int64_t r = row, c = column, steps = 0;
            while (leads_on(directions(r, c)) && steps++ <= z.shape().cells()) {
                const Direction d = directions(r, c);
                r += row_step(d);
                c += column_step(d);
                if (!z.shape().holds(r, c)) return -1;
            }
            wrong += directions(r, c) != Direction::outlet;
        }
    return wrong;
}

TEST(FlowDirections, EveryCellEndsAtAnOutletAndAnyTilesGiveTheSame) {
    std::mt19937 random(30);
    for (int trial = 0; trial < 800; ++trial) {
        auto ground = troubled_ground(random, 24);
        fill_depressions(ground);
        const auto expected = plain_directions(ground);
        ASSERT_EQ(wrong_cells(ground, expected), 0) << "trial " << trial;
        for (const std::int64_t side : {1, 2, 3, 5, 8, 64})
            for (const int threads : {1, 4}) {
                if (threads > 1 && trial % 8) continue;
                ASSERT_EQ(picture(flow_directions(ground, {side, threads})), picture(expected))
                    << "trial " << trial << ", side " << side;
            }
    }
}

TEST(FlowDirections, RoughHillsDrainTheSameInAnyTiles) {
    auto ground = rough_ground(300, 410, 5);
    fill_depressions(ground);
    const auto expected = plain_directions(ground);
    EXPECT_EQ(wrong_cells(ground, expected), 0);
    for (const std::int64_t side : {3, 17, 64, 256, 1000})
        for (const int threads : {1, 2, 4})
            EXPECT_EQ(picture(flow_directions(ground, {side, threads})), picture(expected)) << "side " << side;
}

TEST(FlowDirections, AConeFallsAwayFromItsTop) {
    Grid<float> cone({41, 41, 1});
    for (std::int64_t r = 0; r < 41; ++r)
        for (std::int64_t c = 0; c < 41; ++c)
            cone(r, c) = 100 - static_cast<float>(std::hypot(static_cast<double>(r - 20), static_cast<double>(c - 20)));
    const auto directions = flow_directions(cone, {16, 2});
    for (std::int64_t r = 1; r < 40; ++r)
        for (std::int64_t c = 1; c < 40; ++c) {
            const Direction d = directions(r, c);
            const auto dr = static_cast<double>(row_step(d)), dc = static_cast<double>(column_step(d));
            const double y = static_cast<double>(r - 20), x = static_cast<double>(c - 20);
            if (x == 0 && y == 0) continue;
            // Within half of the 45 degrees between two ways, and a little for the cone's own bend near the top.
            EXPECT_GT((dr * y + dc * x) / std::hypot(dr, dc) / std::hypot(x, y),
                      std::cos(0.41 + 0.2 / std::hypot(x, y)));
        }
}

}  // namespace
