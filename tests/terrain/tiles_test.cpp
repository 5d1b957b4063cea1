#include "terrain/tiles.h"

#include <gtest/gtest.h>

#include <atomic>
#include <set>
#include <utility>
#include <vector>

namespace {

using namespace soilhold::terrain;

TEST(Tiles, CoverEveryCellOnce) {
    for (const std::int64_t side : {1, 2, 3, 7, 100}) {
        const TileCut cut({10, 7, 1}, side);
        Grid<int> seen(cut.shape(), 0);
        for (std::int64_t t = 0; t < cut.count(); ++t) {
            const Tile tile = cut.tile(t);
            for (std::int64_t r = 0; r < tile.rows; ++r)
                for (std::int64_t c = 0; c < tile.columns; ++c) {
                    ++seen(tile.row + r, tile.column + c);
                    EXPECT_EQ(cut.tile_at(tile.row + r, tile.column + c), t);
                }
        }
        for (const int times : seen.values()) EXPECT_EQ(times, 1);
    }
}

TEST(Tiles, TheRimVisitsEachOutermostCellOnceAndKnowsItsPlace) {
    for (const std::int64_t rows : {1, 2, 3, 5})
        for (const std::int64_t columns : {1, 2, 4, 6}) {
            std::set<std::pair<std::int64_t, std::int64_t>> seen;
            std::int64_t place = 0;
            along_rim(rows, columns, [&](std::int64_t r, std::int64_t c) {
                EXPECT_TRUE(r == 0 || c == 0 || r == rows - 1 || c == columns - 1);
                EXPECT_TRUE(seen.emplace(r, c).second) << rows << " x " << columns << ": " << r << ", " << c;
                EXPECT_EQ(rim_place(rows, columns, r, c), place++) << rows << " x " << columns;
            });
            EXPECT_EQ(place, rim_cells(rows, columns));
            EXPECT_EQ(place,
                      rows * columns - std::max<std::int64_t>(rows - 2, 0) * std::max<std::int64_t>(columns - 2, 0));
        }
}

TEST(Tiles, APatchHoldsItsTileAndOneCellAround) {
    Grid<int> grid({4, 3, 1});
    for (std::int64_t r = 0; r < 3; ++r)
        for (std::int64_t c = 0; c < 4; ++c) grid(r, c) = static_cast<int>(10 * r + c);
    const TileCut cut(grid.shape(), 2);
    const auto patch = cut_patch(grid, cut.tile(1), -1);  // rows 0 and 1, columns 2 and 3
    const std::vector<std::vector<int>> expected{{-1, -1, -1, -1}, {1, 2, 3, -1}, {11, 12, 13, -1}, {21, 22, 23, -1}};
    for (std::int64_t r = -1; r <= 2; ++r)
        for (std::int64_t c = -1; c <= 2; ++c)
            EXPECT_EQ(patch(r, c), expected[static_cast<std::size_t>(r + 1)][static_cast<std::size_t>(c + 1)]);
    Grid<int> back(grid.shape(), 0);
    put_patch(patch, cut.tile(1), back);
    EXPECT_EQ(back(1, 3), 13);
    EXPECT_EQ(back(1, 1), 0) << "the halo was written";
}

TEST(Tiles, TheHaloIsFoundOnTheRimsAround) {
    // Each rim cell carries its place in the grid; seen from a neighbour's halo it must be the cell that lies there.
    for (const std::int64_t side : {1, 2, 3, 4}) {
        const TileCut cut({9, 8, 1}, side);
        for (std::int64_t t = 0; t < cut.count(); ++t) {
            const Tile own = cut.tile(t);
            std::vector<std::pair<std::int64_t, std::int64_t>> around;
            along_rim(own.rows + 2, own.columns + 2, [&](std::int64_t r, std::int64_t c) {
                around.emplace_back(own.row + r - 1, own.column + c - 1);
            });
            std::size_t visited = 0, inside = 0;
            for (const auto& [r, c] : around) inside += cut.shape().holds(r, c);
            along_halo(cut, t, [&](std::int64_t place, std::int64_t other, std::int64_t rim) {
                ++visited;
                const auto [row, column] = around[static_cast<std::size_t>(place)];
                EXPECT_EQ(other, cut.tile_at(row, column));
                const Tile there = cut.tile(other);
                EXPECT_EQ(rim, rim_place(there.rows, there.columns, row - there.row, column - there.column));
            });
            EXPECT_EQ(visited, inside);
        }
    }
}

TEST(Tiles, TheLoopCallsEachNumberOnceAndHandsOnWhatIsThrown) {
    for (const int threads : {0, 1, 2, 4}) {
        std::vector<std::atomic<int>> calls(100);
        in_parallel(100, threads, [&](std::int64_t i) { ++calls[static_cast<std::size_t>(i)]; });
        for (const auto& count : calls) EXPECT_EQ(count, 1);
        EXPECT_THROW(in_parallel(9, threads,
                                 [](std::int64_t i) {
                                     if (i == 4) throw std::out_of_range("4");
                                 }),
                     std::out_of_range);
    }
}

TEST(Tiles, ASideBelowOneIsRefused) { EXPECT_THROW(TileCut({3, 3, 1}, 0), std::invalid_argument); }

}  // namespace
