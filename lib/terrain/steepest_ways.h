/// The steepest way down of a row of cells, and which of them have none: outlets and flat cells.
///
/// Fall over distance, 1 straight and sqrt 2 across a corner, in floats. Needs: filled elevations; nodata stands
/// infinitely high. Ties: the first in the order of Direction. Memory: none.
/// @source  O'Callaghan and Mark (1984), see direction.h
#pragma once

#include <cstdint>
#include <vector>

namespace soilhold::terrain {

/// What stands for the way of a flat cell: with a neighbour that lies higher, or level all round.
inline constexpr std::uint8_t flat_below = 16, flat_amid = 17;

/// Writes each cell's way: a Direction's number, 9 for an outlet (no lower neighbour, and one without a value), 0 for
/// nodata, else flat_below or flat_amid.
/// @param here    first cell of the row; the rows `stride` values before and after it, and a value at each end, exist
void steepest_ways(const float* here, std::int64_t stride, std::int64_t columns, std::uint8_t* way);

/// Adds the flat cells `begin` to `end` - 1 of the ways to the list, in their order.
void list_flat_cells(const std::uint8_t* way, std::int32_t begin, std::int32_t end, std::vector<std::int32_t>& flat);

}  // namespace soilhold::terrain
