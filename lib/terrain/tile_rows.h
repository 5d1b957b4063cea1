/// A row of tiles: the piece in which a grid larger than memory is worked, its halo being the row above and the row
/// below it.
#pragma once

#include <algorithm>
#include <cstdint>

#include "terrain/stored_grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Rows of the grid, a whole number of rows of tiles, and as much around them as there is.
struct TileRows {
    std::int64_t row = 0;         ///< their own first row
    std::int64_t rows = 0;        ///< of their own
    std::int64_t first = 0;       ///< first row with the halo
    std::int64_t count = 0;       ///< rows with the halo
    std::int64_t first_tile = 0;  ///< number of the first tile
    std::int64_t tiles = 0;

    /// A tile of the grid, by its rows in a grid that begins at `first`.
    Tile within(Tile tile) const {
        tile.row -= first;
        return tile;
    }
    /// By its rows in a grid that begins at `row`.
    Tile within_own(Tile tile) const {
        tile.row -= row;
        return tile;
    }
};

/// @param number  of the first row of tiles  @param down  rows of tiles, fewer where the grid ends
/// @param halo    rows around them
inline TileRows tile_rows(const TileCut& cut, std::int64_t number, std::int64_t down = 1, std::int64_t halo = 1) {
    TileRows strip;
    down = std::min(down, cut.down() - number);
    strip.first_tile = number * cut.across();
    strip.tiles = down * cut.across();
    strip.row = cut.tile(strip.first_tile).row;
    const Tile last = cut.tile(strip.first_tile + strip.tiles - 1);
    strip.rows = last.row + last.rows - strip.row;
    strip.first = std::max<std::int64_t>(0, strip.row - halo);
    strip.count = std::min(strip.row + strip.rows + halo, cut.shape().rows) - strip.first;
    return strip;
}

/// The rows with their halo.
template <class T>
Grid<T> with_halo(const TileCut& cut, const TileRows& strip, const RowReader<T>& reader) {
    Grid<T> rows({cut.shape().columns, strip.count, cut.shape().cell_m}, Unset{});
    reader(strip.first, rows);
    return rows;
}

}  // namespace soilhold::terrain
