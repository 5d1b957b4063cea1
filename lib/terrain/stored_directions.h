/// Flow directions of a grid larger than memory: what flow_directions.h does, row of tiles by row of tiles.
///
/// Filled heights come from north to south; a row of tiles is directed once the row below it is there. Directions go to
/// a store, the flats that reach over rims to another. When all have come the flats agree and are settled there.
///
/// Needs, nodata, border and ties: flow_directions.h, of which it has the bits. Memory: two rows of tiles (4 bytes a
/// cell) and their directions; about 20 bytes a cell on the rim of a tile. The stores take 1 byte a cell, and 16 bytes
/// for each cell of a flat that reaches over a rim.
#pragma once

#include <functional>
#include <memory>

#include "terrain/direction.h"
#include "terrain/stored_grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

class StoredDirections {
  public:
    /// @param open_flats  what is kept of the flats
    StoredDirections(const Shape& shape, const ByteStore& directions, const ByteStore& open_flats,
                     const Tiling& tiling);
    ~StoredDirections();
    StoredDirections(const StoredDirections&) = delete;
    StoredDirections& operator=(const StoredDirections&) = delete;

    /// The next row of tiles of filled heights. @throws std::invalid_argument as flow_directions()
    void add(const Grid<float>& filled);
    /// Settles what is open, when all have come. @throws std::invalid_argument as flow_directions()
    void finish(const std::function<void(double)>& progress);
    /// The directions, when they are finished.
    StoredGrid<Direction> directions() const;

  private:
    struct Working;
    std::unique_ptr<Working> working_;
};

}  // namespace soilhold::terrain
