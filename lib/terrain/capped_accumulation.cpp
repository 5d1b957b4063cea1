#include "terrain/capped_accumulation.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace soilhold::terrain {
namespace {

void check(const CappedGround& ground, std::int64_t steps) {
    const Shape shape = ground.filled.shape();
    if (!(ground.directions.shape() == shape) || (ground.barriers && !(ground.barriers->shape() == shape)))
        throw std::invalid_argument("directions and barriers need the shape of the elevations");
    if (steps < 0 || steps > 4096) throw std::invalid_argument("sums are capped after 0 to 4096 steps");
}

// A tile grown by a number of cells on each side, as far as the grid goes.
Tile grown(const Tile& tile, std::int64_t cells, const Shape& within) {
    const std::int64_t row = std::max<std::int64_t>(tile.row - cells, 0);
    const std::int64_t column = std::max<std::int64_t>(tile.column - cells, 0);
    return {row, column, std::min(tile.row + tile.rows + cells, within.rows) - row,
            std::min(tile.column + tile.columns + cells, within.columns) - column};
}

template <class T>
Grid<T> cut_out(const Grid<T>& grid, const Tile& tile) {
    Grid<T> part({tile.columns, tile.rows, grid.shape().cell_m}, Unset{});
    for (std::int64_t r = 0; r < tile.rows; ++r) {
        const T* from = &grid(tile.row + r, tile.column);
        std::copy(from, from + tile.columns, &part(r, 0));
    }
    return part;
}

// Shares that come in, by the way they come from, and the two turns of the sums; a ring of zeros lies around them.
struct Workings {
    explicit Workings(const Shape& shape)
        : stride(shape.columns + 2),
          size(static_cast<std::size_t>(stride * (shape.rows + 2))),
          comes_in(8 * size, 0.0F),
          own(size, 0.0F),
          sums(size, 0.0F),
          next(size, 0.0F) {}
    std::size_t at(std::int64_t row, std::int64_t column) const {
        return static_cast<std::size_t>((row + 1) * stride + column + 1);
    }
    std::int64_t stride;
    std::size_t size;
    std::vector<float> comes_in, own, sums, next;
};

void share_out(const CappedGround& ground, const ShareRule& rule, const Tile& donors, Workings& work) {
    for (std::int64_t r = donors.row; r < donors.row + donors.rows; ++r)
        for (std::int64_t c = donors.column; c < donors.column + donors.columns; ++c) {
            const Direction direction = ground.directions(r, c);
            if (direction == Direction::none) continue;
            work.own[work.at(r, c)] = work.sums[work.at(r, c)] = 1;
            FlowShares shares = rule(neighbours_of(ground.filled, r, c), direction);
            if (!shares.any()) shares = single_flow_shares(direction);
            for (std::size_t k = 0; k < 8; ++k) {
                if (!(shares.way[k] > 0)) continue;
                const std::int64_t row = r + row_steps[k], column = c + column_steps[k];
                if (!ground.filled.shape().holds(row, column) || ground.directions(row, column) == Direction::none)
                    continue;
                if (ground.barriers && (*ground.barriers)(row, column)) continue;
                work.comes_in[way_back(k) * work.size + work.at(row, column)] = shares.way[k];
            }
        }
}

// One step for a row. `own`, `comes_in`, `sums` and `next` point to its first cell, `comes_in` in the first of planes
// `size` apart.
void step_row(const float* own, const float* comes_in, std::size_t size, const float* sums, std::int64_t stride,
              std::int64_t count, float* __restrict next) {
    const float *north = sums - stride, *south = sums + stride;
    for (std::int64_t i = 0; i < count; ++i) {
        const float* in = comes_in + i;
        float sum = own[i] + in[0] * sums[i + 1];
        sum += in[size] * south[i];
        sum += in[2 * size] * sums[i - 1];
        sum += in[3 * size] * north[i];
        sum += in[4 * size] * south[i + 1];
        sum += in[5 * size] * south[i - 1];
        sum += in[6 * size] * north[i - 1];
        next[i] = sum + in[7 * size] * north[i + 1];
    }
}

}  // namespace

std::int64_t steps_within(double length_m, double cell_m) {
    if (!(length_m > 0 && cell_m > 0)) throw std::invalid_argument("a length and a cell's width must be above 0");
    // With a hair of room: 0.3 m hold three cells of 0.1 m.
    return static_cast<std::int64_t>(std::floor(length_m / cell_m + 1e-9));
}

Grid<float> capped_tile(const CappedGround& ground, const ShareRule& rule, std::int64_t steps, const Tile& inner) {
    check(ground, steps);
    const Shape shape = ground.filled.shape();
    Workings work(shape);
    share_out(ground, rule, grown(inner, steps, shape), work);
    // After step k the sums hold in the tile and steps - k cells around it: the rest is not worked out any more.
    for (std::int64_t k = 1; k <= steps; ++k) {
        const Tile part = grown(inner, steps - k, shape);
        for (std::int64_t r = part.row; r < part.row + part.rows; ++r) {
            const std::size_t at = work.at(r, part.column);
            step_row(&work.own[at], &work.comes_in[at], work.size, &work.sums[at], work.stride, part.columns,
                     &work.next[at]);
        }
        work.sums.swap(work.next);
    }
    Grid<float> result({inner.columns, inner.rows, shape.cell_m}, Unset{});
    for (std::int64_t r = 0; r < inner.rows; ++r) {
        const float* from = &work.sums[work.at(inner.row + r, inner.column)];
        std::copy(from, from + inner.columns, &result(r, 0));
    }
    return result;
}

Grid<double> capped_rows(const CappedGround& ground, const ShareRule& rule, std::int64_t steps, std::int64_t first,
                         std::int64_t rows, const Tiling& tiling) {
    check(ground, steps);
    const Shape shape = ground.filled.shape();
    if (first < 0 || rows < 1 || first + rows > shape.rows) throw std::invalid_argument("rows must lie in the ground");
    Grid<double> sums({shape.columns, rows, shape.cell_m}, Unset{});
    const TileCut cut(sums.shape(), tiling.side);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile own = cut.tile(t);
        const Tile tile{first + own.row, own.column, own.rows, own.columns}, around = grown(tile, steps + 1, shape);
        const auto filled = cut_out(ground.filled, around);
        const auto directions = cut_out(ground.directions, around);
        Grid<std::uint8_t> barriers;
        if (ground.barriers) barriers = cut_out(*ground.barriers, around);
        const Tile inner{tile.row - around.row, tile.column - around.column, tile.rows, tile.columns};
        const auto part = capped_tile({filled, directions, ground.barriers ? &barriers : nullptr}, rule, steps, inner);
        for (std::int64_t r = 0; r < own.rows; ++r) std::ranges::copy(part.row(r), &sums(own.row + r, own.column));
    });
    return sums;
}

Grid<double> capped_accumulation(const CappedGround& ground, const ShareRule& rule, std::int64_t steps,
                                 const Tiling& tiling) {
    check(ground, steps);
    return capped_rows(ground, rule, steps, 0, ground.filled.rows(), tiling);
}

}  // namespace soilhold::terrain
