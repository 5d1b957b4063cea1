/// The one neighbour of eight that a cell's water goes to (D8).
///
/// @source  O'Callaghan, J. F., Mark, D. M. (1984): The extraction of drainage networks from digital elevation data.
///          Computer Vision, Graphics, and Image Processing 28. From memory.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace soilhold::terrain {

/// `none` is a cell without a value; `outlet` one whose water leaves the grid or enters a hole in it.
/// Straight ways come before diagonal ones: of equal ways the first is taken.
enum class Direction : std::uint8_t {
    none,
    east,
    south,
    west,
    north,
    southeast,
    southwest,
    northwest,
    northeast,
    outlet
};

/// The eight ways in that order; way k is Direction(k + 1).
inline constexpr std::array<std::int8_t, 8> row_steps{0, 1, 0, -1, 1, 1, -1, -1};
inline constexpr std::array<std::int8_t, 8> column_steps{1, 0, -1, 0, 1, -1, -1, 1};

/// Whether the direction leads to a neighbour.
inline bool leads_on(Direction d) { return d != Direction::none && d != Direction::outlet; }
inline bool diagonal(Direction d) { return d >= Direction::southeast && d <= Direction::northeast; }
inline std::int64_t row_step(Direction d) { return row_steps[static_cast<std::size_t>(d) - 1]; }
inline std::int64_t column_step(Direction d) { return column_steps[static_cast<std::size_t>(d) - 1]; }

/// The offsets of the eight ways in an array of rows `stride` apart.
inline std::array<std::int32_t, 8> way_offsets(std::int64_t stride) {
    const auto s = static_cast<std::int32_t>(stride);
    return {1, s, -1, -s, s + 1, s - 1, -s - 1, -s + 1};
}

}  // namespace soilhold::terrain
