#include "terrain/stream_lines.h"

#include <gtest/gtest.h>

#include <cmath>

namespace soilhold::terrain {
namespace {

/// A trough that falls southward: its sides lean towards column 5.
Grid<float> trough() {
    Grid<float> ground({11, 20, 10.0});
    for (std::int64_t r = 0; r < 20; ++r)
        for (std::int64_t c = 0; c < 11; ++c)
            ground(r, c) =
                static_cast<float>(100 - 0.1 * static_cast<double>(r) + 2.0 * std::abs(static_cast<double>(c - 5)));
    return ground;
}

TEST(StreamLines, ATroughHasOneStreamDownItsMiddle) {
    // 11 cells of 100 m2 drain in from each row: 4400 m2 are there after four rows.
    const auto lines = stream_lines(trough(), 4400);
    ASSERT_EQ(lines.size(), 1U);
    for (const CellPoint& point : lines[0]) EXPECT_EQ(point.column, 5.5);
    EXPECT_NEAR(lines[0].front().row, 4.5, 1.0);
    EXPECT_EQ(lines[0].back().row, 19.5);
}

TEST(StreamLines, MoreGroundIsNeededForFewerStreams) {
    EXPECT_GT(stream_lines(trough(), 300).size(), 1U);
    EXPECT_TRUE(stream_lines(trough(), 1e9).empty());
    EXPECT_THROW(stream_lines(trough(), 0), std::invalid_argument);
}

TEST(StreamLines, ATributaryEndsOnTheStreamItJoins) {
    const auto lines = stream_lines(trough(), 300);
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const CellPoint end = lines[i].back();
        bool meets = end.row == 19.5;
        for (std::size_t j = 0; j < lines.size(); ++j)
            for (const CellPoint& point : lines[j])
                meets = meets || (j != i && point.row == end.row && point.column == end.column);
        EXPECT_TRUE(meets) << i;
    }
}

TEST(StreamLines, NoLineEntersAHole) {
    auto ground = trough();
    ground(10, 5) = no_value;
    for (const auto& line : stream_lines(ground, 1000))
        for (const CellPoint& point : line) EXPECT_FALSE(point.row == 10.5 && point.column == 5.5);
}

}  // namespace
}  // namespace soilhold::terrain
