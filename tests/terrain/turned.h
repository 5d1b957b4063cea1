/// Grids turned and compared: what holds for the ground must hold for the ground seen from another side.
#pragma once

#include <cmath>
#include <cstdint>

#include "terrain/grid.h"

namespace soilhold::terrain {

template <class T>
Grid<T> transposed(const Grid<T>& grid) {
    Grid<T> turned({grid.rows(), grid.columns(), grid.shape().cell_m});
    for (std::int64_t r = 0; r < grid.rows(); ++r)
        for (std::int64_t c = 0; c < grid.columns(); ++c) turned(c, r) = grid(r, c);
    return turned;
}

/// Clockwise by a right angle.
template <class T>
Grid<T> quarter_turned(const Grid<T>& grid) {
    Grid<T> turned({grid.rows(), grid.columns(), grid.shape().cell_m});
    for (std::int64_t r = 0; r < grid.rows(); ++r)
        for (std::int64_t c = 0; c < grid.columns(); ++c) turned(c, grid.rows() - 1 - r) = grid(r, c);
    return turned;
}

/// Equal, NaN counting as equal to NaN.
template <class T>
bool same_bits(const Grid<T>& one, const Grid<T>& other) {
    if (!(one.shape() == other.shape())) return false;
    for (std::size_t i = 0; i < one.values().size(); ++i) {
        const T a = one.values()[i], b = other.values()[i];
        if (!(a == b || (std::isnan(a) && std::isnan(b)))) return false;
    }
    return true;
}

/// The largest difference as a share of the second; 0 where both are NaN, infinite where only one is.
template <class T>
double largest_difference(const Grid<T>& one, const Grid<T>& other) {
    double most = 0;
    for (std::size_t i = 0; i < one.values().size(); ++i) {
        const double a = one.values()[i], b = other.values()[i];
        if (std::isnan(a) && std::isnan(b)) continue;
        if (std::isnan(a) || std::isnan(b)) return INFINITY;
        if (b != 0) most = std::max(most, std::abs(a - b) / std::abs(b));
    }
    return most;
}

}  // namespace soilhold::terrain
