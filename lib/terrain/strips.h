/// Strips: a grid cut into bands of whole rows, brought in, worked and handed on one after another.
///
/// What stands before and after the working (reading a file, writing one) has an order; the working has none. So a
/// strip is brought in while the one before is worked and the one before that is handed on, and never more than
/// `strips_at_a_time` are held.
/// Memory: that many of what is held of a strip.
#pragma once

#include <tbb/parallel_pipeline.h>

#include <array>
#include <cstddef>

#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Rows of a strip: as many as a tile of a file has, so that each tile is packed once.
inline constexpr std::int64_t strip_rows = 256;

/// Whole rows of a grid.
struct Strip {
    std::int64_t row = 0;
    std::int64_t rows = 0;
};

inline std::int64_t strips_of(const Shape& shape) { return (shape.rows + strip_rows - 1) / strip_rows; }

inline Strip strip_of(const Shape& shape, std::int64_t number) {
    const std::int64_t row = number * strip_rows;
    return {row, std::min(strip_rows, shape.rows - row)};
}

inline constexpr std::size_t strips_at_a_time = 3;

/// Carries all strips of a grid through three steps: bring(strip, held) from north to south, one at a time;
/// work(strip, held) in any order, several at a time; take(strip, held) from north to south again, one at a time.
/// `held` is what a strip is carried in; it comes back for a later one as it was left, so that memory is used again.
/// What a step throws is thrown here.
/// @param most_held  strips at a time, fewer where memory is short
template <class Held, class Bring, class Work, class Take>
void along_strips(const Shape& shape, int threads, std::array<Held, strips_at_a_time>& held, const Bring& bring,
                  const Work& work, const Take& take, std::size_t most_held = strips_at_a_time) {
    const int most = tbb::info::default_concurrency();
    tbb::task_arena arena(threads > 0 ? std::min(threads, most) : most);
    const std::int64_t count = strips_of(shape);
    // The last step goes in order: when strip n comes in, strip n - strips_at_a_time has left and its place is free.
    const auto place = [&](std::int64_t number) -> Held& {
        return held[static_cast<std::size_t>(number) % strips_at_a_time];
    };
    std::int64_t next = 0;
    using tbb::filter_mode;
    arena.execute([&] {
        tbb::parallel_pipeline(
            std::min(most_held, strips_at_a_time),
            tbb::make_filter<void, std::int64_t>(filter_mode::serial_in_order, [&](tbb::flow_control& flow) {
                if (next == count) {
                    flow.stop();
                    return count;
                }
                bring(strip_of(shape, next), place(next));
                return next++;
            }) & tbb::make_filter<std::int64_t, std::int64_t>(filter_mode::parallel, [&](std::int64_t number) {
                work(strip_of(shape, number), place(number));
                return number;
            }) & tbb::make_filter<std::int64_t, void>(filter_mode::serial_in_order, [&](std::int64_t number) {
                take(strip_of(shape, number), place(number));
            }));
    });
}

/// A grid of `rows` rows to be written over: the one that is there, where it has that many.
template <class T>
void make_room(Grid<T>& grid, const Shape& whole, std::int64_t rows) {
    if (grid.rows() == rows && grid.columns() == whole.columns) return;
    grid = Grid<T>({whole.columns, rows, whole.cell_m}, Unset{});
}

/// Rows of a grid that are held somewhere: all of it in memory, or those that a strip needs.
template <class T>
struct HeldRows {
    const T* values = nullptr;  ///< the first cell of the first row; null: there is no such grid
    std::int64_t first = 0;     ///< row of the grid that the first row is
    std::int64_t rows = 0;
    std::int64_t columns = 0;

    HeldRows() = default;
    explicit HeldRows(const Grid<T>& grid) : values(grid.values().data()), rows(grid.rows()), columns(grid.columns()) {}
    explicit operator bool() const { return values != nullptr; }
    bool holds(std::int64_t row) const { return values != nullptr && row >= first && row < first + rows; }
    /// @param row  of the grid; one that is held
    const T* row(std::int64_t row) const { return values + (row - first) * columns; }
};

}  // namespace soilhold::terrain
