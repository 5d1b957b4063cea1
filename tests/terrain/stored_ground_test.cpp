// Grids larger than memory: strips from a store have the bits of the whole grid (stored_fill.h, stored_directions.h,
// stored_flow.h, capped_accumulation.h).
#include <gtest/gtest.h>

#include <cstring>
#include <memory>
#include <mutex>
#include <random>

#include "terrain/accumulation.h"
#include "terrain/capped_accumulation.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"
#include "terrain/multiple_flow.h"
#include "terrain/stored_directions.h"
#include "terrain/stored_fill.h"
#include "terrain/stored_flow.h"

namespace {

using namespace soilhold::terrain;

// A store in memory, so that a test needs no file.
ByteStore store_in_memory() {
    struct Bytes {
        std::mutex mutex;
        std::vector<std::byte> bytes;
    };
    const auto kept = std::make_shared<Bytes>();
    return {[kept](std::int64_t at, const void* bytes, std::size_t count) {
                const std::lock_guard lock(kept->mutex);
                const auto end = static_cast<std::size_t>(at) + count;
                if (kept->bytes.size() < end) kept->bytes.resize(end);
                if (count > 0) std::memcpy(kept->bytes.data() + at, bytes, count);
            },
            [kept](std::int64_t at, void* bytes, std::size_t count) {
                const std::lock_guard lock(kept->mutex);
                if (count > 0) std::memcpy(bytes, kept->bytes.data() + at, count);
            }};
}

template <class T>
RowReader<T> rows_of(const Grid<T>& grid) {
    return [&grid](std::int64_t row, Grid<T>& to) {
        for (std::int64_t r = 0; r < to.rows(); ++r) std::ranges::copy(grid.row(row + r), to.row(r).begin());
    };
}

template <class T>
bool same_bits(const Grid<T>& a, const Grid<T>& b) {
    return a.shape() == b.shape() && std::memcmp(a.values().data(), b.values().data(), a.values().size_bytes()) == 0;
}

void nobody_asks(double) {}

// All steps in memory.
struct Whole {
    Grid<float> filled;
    FillReport report;
    Grid<Direction> directions;
    Grid<double> drained;

    Whole(const Grid<float>& ground, const Grid<std::uint8_t>* barriers, const Tiling& tiling = {}) : filled(ground) {
        report = fill_depressions(filled, tiling);
        directions = flow_directions(filled, tiling);
        drained = accumulate(directions, {.barriers = barriers}, tiling);
    }
};

// All steps from stores, a row of tiles at a time.
struct Stored {
    Grid<float> filled;
    FillReport report;
    Grid<Direction> directions;
    Grid<double> drained;

    Stored(const Grid<float>& ground, const Grid<std::uint8_t>* barriers, const Tiling& tiling, std::int64_t down = 1)
        : filled(ground.shape()), directions(ground.shape()), drained(ground.shape()) {
        StoredDirections directing(ground.shape(), store_in_memory(), store_in_memory(), tiling);
        const auto take = [&](std::int64_t row, const Grid<float>& rows) {
            for (std::int64_t r = 0; r < rows.rows(); ++r) std::ranges::copy(rows.row(r), filled.row(row + r).begin());
            directing.add(rows);
        };
        report = fill_stored(ground.shape(), rows_of(ground), store_in_memory(), take, tiling, nobody_asks);
        directing.finish(nobody_asks);
        directing.directions().read(0, directions);
        const TileCut cut(ground.shape(), tiling.side);
        RowReader<std::uint8_t> stops;
        if (barriers) stops = rows_of(*barriers);
        const auto arrivals = stored_arrivals(cut, directing.directions().reader(), stops, tiling.threads, nobody_asks);
        for (std::int64_t number = 0; number < cut.down(); number += down) {
            const TileRows strip = tile_rows(cut, number, down);
            const auto ways = with_halo(cut, strip, directing.directions().reader());
            Grid<std::uint8_t> stop;
            if (barriers) stop = with_halo(cut, strip, stops);
            const auto sums = stored_sums(cut, strip, ways, barriers ? &stop : nullptr, arrivals);
            for (std::int64_t r = 0; r < strip.rows; ++r)
                std::ranges::copy(sums.row(r), drained.row(strip.row + r).begin());
        }
    }
};

void expect_same(const Whole& whole, const Stored& stored) {
    EXPECT_TRUE(same_bits(whole.filled, stored.filled));
    EXPECT_TRUE(same_bits(whole.directions, stored.directions));
    EXPECT_TRUE(same_bits(whole.drained, stored.drained));
    EXPECT_EQ(whole.report.cells_raised, stored.report.cells_raised);
    EXPECT_EQ(whole.report.pits, stored.report.pits);
    EXPECT_EQ(whole.report.volume_m3, stored.report.volume_m3);
    EXPECT_EQ(whole.report.deepest_m, stored.report.deepest_m);
}

Grid<std::uint8_t> random_barriers(const Shape& shape, std::mt19937& random) {
    Grid<std::uint8_t> barriers(shape, 0);
    for (auto& cell : barriers.values()) cell = random() % 16 == 0 ? 1 : 0;
    return barriers;
}

TEST(StoredGround, HasTheBitsOfTheWholeGridOnTroubledGround) {
    std::mt19937 random(31);
    for (int trial = 0; trial < 90; ++trial) {
        const auto ground = troubled_ground(random, 24);
        const auto barriers = random_barriers(ground.shape(), random);
        const Grid<std::uint8_t>* const stops = trial % 2 ? &barriers : nullptr;
        const Whole whole(ground, stops);
        for (const std::int64_t side : {1, 2, 3, 5, 8, 64}) {
            SCOPED_TRACE(testing::Message() << "trial " << trial << ", side " << side);
            expect_same(whole, Stored(ground, stops, {side, trial % 8 ? 1 : 4}, 1 + trial % 3));
            if (testing::Test::HasFailure()) return;
        }
    }
}

TEST(StoredGround, HasTheBitsOfTheWholeGridOnRoughGroundWithLakesLargerThanATile) {
    const auto ground = rough_ground(300, 230, 7);
    std::mt19937 random(3);
    const auto barriers = random_barriers(ground.shape(), random);
    const Whole whole(ground, &barriers);
    for (const std::int64_t side : {16, 48, 128}) {
        SCOPED_TRACE(side);
        expect_same(whole, Stored(ground, &barriers, {side, 2}));
    }
}

TEST(StoredGround, SomeRowsOfCappedSumsHaveTheBitsOfAll) {
    const auto ground = rough_ground(60, 50, 11);
    const Whole whole(ground, nullptr);
    constexpr std::int64_t steps = 7;
    const auto all = capped_accumulation({whole.filled, whole.directions}, freeman_flow, steps);
    for (std::int64_t row = 0; row < 60; row += 20) {
        const std::int64_t first = std::max<std::int64_t>(0, row - steps - 1);
        const std::int64_t count = std::min<std::int64_t>(60, row + 20 + steps + 1) - first;
        Grid<float> filled({50, count, 5});
        Grid<Direction> directions({50, count, 5});
        rows_of(whole.filled)(first, filled);
        rows_of(whole.directions)(first, directions);
        const auto part = capped_rows({filled, directions}, freeman_flow, steps, row - first, 20, {.side = 16});
        Grid<double> expected({50, 20, 5});
        rows_of(all)(row, expected);
        EXPECT_TRUE(same_bits(part, expected)) << row;
    }
}

TEST(StoredGround, SaysThatDirectionsNeedFilledGround) {
    Grid<float> pit({6, 6, 1}, 5);
    pit(3, 3) = 1;
    const auto direct = [&](std::int64_t side) {
        StoredDirections directing(pit.shape(), store_in_memory(), store_in_memory(), {.side = side});
        for (std::int64_t row = 0; row < 6; row += side) {
            Grid<float> rows({6, std::min<std::int64_t>(side, 6 - row), 1});
            rows_of(pit)(row, rows);
            directing.add(rows);
        }
        directing.finish(nobody_asks);
    };
    for (const std::int64_t side : {1, 2, 4, 6}) EXPECT_THROW(direct(side), std::invalid_argument) << side;
}

}  // namespace
