/// Tiles: a grid cut into squares that fit a core's cache, each worked alone, and the loop over them.
///
/// A step on tiles has three parts: each tile is solved alone from its own cells and a ring of one cell around them
/// (its halo); what it tells its neighbours is a small record of its rim; the records are joined in one small graph
/// whose answer finishes each tile. The result never depends on the side of the tiles or the number of threads.
/// The functions for one tile take a Patch, so that tiles read from disk run through the same code.
/// Memory: a patch is (rows + 2) x (columns + 2) values, one to a thread at a time.
#pragma once

#include <tbb/enumerable_thread_specific.h>
#include <tbb/info.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "terrain/grid.h"

namespace soilhold::terrain {

/// How a step is cut and on how many threads it runs.
struct Tiling {
    std::int64_t side = 256;  ///< cells a side of a tile, at least 1; 256 to 512 keeps a tile in a core's cache
    int threads = 0;          ///< 0: as many as the machine has
};

/// A rectangle of cells of the grid.
struct Tile {
    std::int64_t row = 0;
    std::int64_t column = 0;
    std::int64_t rows = 0;
    std::int64_t columns = 0;
};

/// All tiles of a grid, counted row by row from the north-west; those at the south and east may be smaller.
class TileCut {
  public:
    /// A side above 16384 is taken as 16384: a tile's cells are counted in 32 bits.
    /// @throws std::invalid_argument for a side below 1
    TileCut(const Shape& shape, std::int64_t side) : shape_(shape), side_(side) {
        if (side < 1) throw std::invalid_argument("a tile needs at least one cell a side");
        side_ = std::min<std::int64_t>(side, 16384);
    }
    std::int64_t across() const { return (shape_.columns + side_ - 1) / side_; }
    std::int64_t down() const { return (shape_.rows + side_ - 1) / side_; }
    std::int64_t count() const { return across() * down(); }
    const Shape& shape() const { return shape_; }
    Tile tile(std::int64_t number) const {
        const std::int64_t row = number / across() * side_, column = number % across() * side_;
        return {row, column, std::min(side_, shape_.rows - row), std::min(side_, shape_.columns - column)};
    }
    /// The number of the tile that owns a cell of the grid.
    std::int64_t tile_at(std::int64_t row, std::int64_t column) const {
        return row / side_ * across() + column / side_;
    }

  private:
    Shape shape_;
    std::int64_t side_;
};

/// Calls work(number) for 0 to count - 1, on `threads` threads (0: all; never more than the machine runs at once).
/// What work throws is thrown here.
template <class Work>
void in_parallel(std::int64_t count, int threads, const Work& work) {
    const int most = tbb::info::default_concurrency();
    tbb::task_arena arena(threads > 0 ? std::min(threads, most) : most);
    arena.execute([&] { tbb::parallel_for(std::int64_t{0}, count, work); });
}

/// The same within work that runs in parallel already, on its threads.
template <class Work>
void in_parallel_here(std::int64_t count, const Work& work) {
    tbb::parallel_for(std::int64_t{0}, count, work);
}

/// Something that each thread has its own of.
template <class T>
using PerThread = tbb::enumerable_thread_specific<T>;

/// A tile's own values with a halo of one cell: row -1 and column -1 exist, and so do row `rows` and column `columns`.
template <class T>
class Patch {
  public:
    Patch(std::int64_t rows, std::int64_t columns, T fill) : rows_(rows), columns_(columns) {
        values_.assign(static_cast<std::size_t>((rows + 2) * (columns + 2)), fill);
    }
    std::int64_t rows() const { return rows_; }
    std::int64_t columns() const { return columns_; }
    std::int64_t stride() const { return columns_ + 2; }
    std::int64_t cells() const { return rows_ * columns_; }
    std::int32_t index(std::int64_t row, std::int64_t column) const {
        return static_cast<std::int32_t>((row + 1) * stride() + column + 1);
    }
    T& operator()(std::int64_t row, std::int64_t column) { return values_[offset(row, column)]; }
    const T& operator()(std::int64_t row, std::int64_t column) const { return values_[offset(row, column)]; }
    /// All values with the halo, row by row; index() counts in it.
    T* data() { return values_.data(); }
    const T* data() const { return values_.data(); }
    std::size_t size() const { return values_.size(); }

  private:
    std::size_t offset(std::int64_t row, std::int64_t column) const {
        return static_cast<std::size_t>(index(row, column));
    }
    std::int64_t rows_;
    std::int64_t columns_;
    std::vector<T> values_;
};

/// The patch of a tile, its halo taken from the grid; `beyond` stands outside the grid.
template <class T>
Patch<T> cut_patch(const Grid<T>& grid, const Tile& tile, T beyond) {
    Patch<T> patch(tile.rows, tile.columns, beyond);
    const std::int64_t west = std::max<std::int64_t>(tile.column - 1, 0);
    const std::int64_t east = std::min(tile.column + tile.columns + 1, grid.columns());
    const std::int64_t south = std::min(tile.row + tile.rows + 1, grid.rows());
    for (std::int64_t row = std::max<std::int64_t>(tile.row - 1, 0); row < south; ++row) {
        const auto from = grid.row(row);
        std::copy(from.begin() + west, from.begin() + east, &patch(row - tile.row, west - tile.column));
    }
    return patch;
}

/// Writes a patch's own cells (not its halo) into the grid.
template <class T>
void put_patch(const Patch<T>& patch, const Tile& tile, Grid<T>& grid) {
    for (std::int64_t row = 0; row < tile.rows; ++row) {
        const T* from = &patch(row, 0);
        std::copy(from, from + tile.columns, grid.row(tile.row + row).begin() + tile.column);
    }
}

/// The rim of a tile: its outermost cells, once each, clockwise from the north-west corner. Calls visit(row, column).
template <class Visit>
void along_rim(std::int64_t rows, std::int64_t columns, const Visit& visit) {
    for (std::int64_t c = 0; c < columns; ++c) visit(std::int64_t{0}, c);
    for (std::int64_t r = 1; r < rows; ++r) visit(r, columns - 1);
    if (rows > 1)
        for (std::int64_t c = columns - 2; c >= 0; --c) visit(rows - 1, c);
    if (columns > 1)
        for (std::int64_t r = rows - 2; r >= 1; --r) visit(r, std::int64_t{0});
}

inline std::int64_t rim_cells(std::int64_t rows, std::int64_t columns) {
    if (rows == 1 || columns == 1) return rows * columns;
    return 2 * (rows + columns) - 4;
}

/// Where a rim cell stands in that walk. The cell must lie on the rim.
inline std::int64_t rim_place(std::int64_t rows, std::int64_t columns, std::int64_t row, std::int64_t column) {
    if (row == 0) return column;
    if (column == columns - 1) return columns - 1 + row;
    if (row == rows - 1) return columns - 1 + rows - 1 + (columns - 1 - column);
    return 2 * (columns - 1) + 2 * (rows - 1) - row;
}

/// The halo of a tile as the rims of the tiles around it, clockwise from the north-west: calls visit(place, tile, rim)
/// with the place in that walk, the number of the tile that owns the cell and where it stands on that tile's rim.
/// Cells outside the grid are passed over. The places are those of the rim of a tile two cells larger each way.
template <class Visit>
void along_halo(const TileCut& cut, std::int64_t number, const Visit& visit) {
    const Tile own = cut.tile(number);
    const std::int64_t down = number / cut.across(), along = number % cut.across();
    std::int64_t place = -1;
    along_rim(own.rows + 2, own.columns + 2, [&](std::int64_t row, std::int64_t column) {
        ++place;
        if (!cut.shape().holds(own.row + row - 1, own.column + column - 1)) return;
        const std::int64_t up_down = row == 0 ? -1 : row > own.rows ? 1 : 0;
        const std::int64_t left_right = column == 0 ? -1 : column > own.columns ? 1 : 0;
        const std::int64_t other = (down + up_down) * cut.across() + along + left_right;
        const Tile there = cut.tile(other);
        visit(place, other,
              rim_place(there.rows, there.columns, own.row + row - 1 - there.row,
                        own.column + column - 1 - there.column));
    });
}

}  // namespace soilhold::terrain
