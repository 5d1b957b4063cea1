#include "terrain/parted_ways.h"

#include <stdexcept>

namespace soilhold::terrain {

Grid<Direction> parted_ways(const Grid<Direction>& directions, const Grid<std::int32_t>& parts, const Tiling& tiling) {
    const Shape& shape = directions.shape();
    if (parts.shape() != shape) throw std::invalid_argument("directions and parts must be of one shape");
    Grid<Direction> ways(shape, Unset{});
    in_parallel(shape.rows, tiling.threads, [&](std::int64_t row) {
        for (std::int64_t column = 0; column < shape.columns; ++column) {
            const Direction way = directions(row, column);
            ways(row, column) = way;
            if (!leads_on(way)) continue;
            const std::int64_t to_row = row + row_step(way), to_column = column + column_step(way);
            if (!shape.holds(to_row, to_column)) throw std::invalid_argument("directions lead out of the grid");
            if (parts(to_row, to_column) != parts(row, column)) ways(row, column) = Direction::outlet;
        }
    });
    return ways;
}

}  // namespace soilhold::terrain
