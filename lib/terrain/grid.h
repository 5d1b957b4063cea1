/// A grid of cells held in memory, row by row from the north-west corner: elevations, directions, areas, factors.
///
/// Square cells in metres. It knows nothing of coordinate systems; raster/ brings every layer onto one such grid.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <span>
#include <stdexcept>
#include <utility>
#include <vector>

namespace soilhold::terrain {

/// How many cells a grid has, and how wide one is.
struct Shape {
    std::int64_t columns = 0;
    std::int64_t rows = 0;
    double cell_m = 1.0;  ///< width and height of a cell, m, > 0

    std::int64_t cells() const { return columns * rows; }
    bool holds(std::int64_t row, std::int64_t column) const {
        return row >= 0 && row < rows && column >= 0 && column < columns;
    }
    friend bool operator==(const Shape&, const Shape&) = default;
};

/// What stands for "no value" in every grid of reals, whatever the file used: NaN.
inline constexpr float no_value = std::numeric_limits<float>::quiet_NaN();

/// Asks for a grid whose values are not set: every cell must be written before it is read. That spares a pass of one
/// thread over values that the tiles, in parallel, write anyway.
struct Unset {};

/// What a grid's vector takes its memory from: as usual, but resize(n) leaves new values unset.
template <class T>
struct GridMemory {
    using value_type = T;
    T* allocate(std::size_t count) { return std::allocator<T>{}.allocate(count); }
    void deallocate(T* values, std::size_t count) noexcept { std::allocator<T>{}.deallocate(values, count); }
    template <class U>
    void construct(U* place) {
        ::new (static_cast<void*>(place)) U;
    }
    template <class U, class... Arguments>
    void construct(U* place, Arguments&&... arguments) {
        std::construct_at(place, std::forward<Arguments>(arguments)...);
    }
    friend bool operator==(const GridMemory&, const GridMemory&) { return true; }
};

template <class T>
class Grid {
  public:
    Grid() = default;
    /// @throws std::invalid_argument for a shape without cells or width
    explicit Grid(const Shape& shape, T fill = T{}) : shape_(shape) {
        check();
        values_.assign(static_cast<std::size_t>(shape.cells()), fill);
    }
    Grid(const Shape& shape, Unset) : shape_(shape) {
        check();
        values_.resize(static_cast<std::size_t>(shape.cells()));
    }
    const Shape& shape() const { return shape_; }
    std::int64_t columns() const { return shape_.columns; }
    std::int64_t rows() const { return shape_.rows; }
    T& operator()(std::int64_t row, std::int64_t column) { return values_[index(row, column)]; }
    const T& operator()(std::int64_t row, std::int64_t column) const { return values_[index(row, column)]; }
    std::span<T> row(std::int64_t r) {
        return {values_.data() + index(r, 0), static_cast<std::size_t>(shape_.columns)};
    }
    std::span<const T> row(std::int64_t r) const {
        return {values_.data() + index(r, 0), static_cast<std::size_t>(shape_.columns)};
    }
    std::span<T> values() { return values_; }
    std::span<const T> values() const { return values_; }

  private:
    void check() const {
        if (shape_.columns <= 0 || shape_.rows <= 0 || !(shape_.cell_m > 0))
            throw std::invalid_argument("a grid needs columns, rows and a cell width above 0");
    }
    std::size_t index(std::int64_t row, std::int64_t column) const {
        return static_cast<std::size_t>(row * shape_.columns + column);
    }
    Shape shape_;
    std::vector<T, GridMemory<T>> values_;
};

}  // namespace soilhold::terrain
