/// Directions inside one tile, and the level ground that reaches over its rim.
///
/// A flat cell has no lower neighbour and is no outlet. It is sent away from higher ground and toward the way out:
/// with `toward` the steps over level cells to a cell that has a direction, and `away` the steps over flat cells from
/// one beside higher ground (1 for that one itself), it goes to a level neighbour with a direction if it has one, and
/// else to the flat neighbour with the least 2 toward - away. Some neighbour is one nearer the way out and at most one
/// nearer the high ground, so that number always falls by at least 1: no cycle, and no flat cell is left over.
/// Both counts are distances, and a distance is one number however the ground is cut. Flats inside a tile are done at
/// once; those on the rim wait (`open`) until the counts of all tiles agree (relax), which a few rounds bring about.
///
/// Needs: filled elevations with their halo. Nodata: NaN, outside the grid too. Border: see flow_directions.h.
/// Memory: 8 bytes a cell of the tile while it is worked; 16 bytes an open flat cell until all agree.
/// @source  Garbrecht, J., Martz, L. W. (1997): The assignment of drainage direction over flat surfaces in raster
///          digital elevation models. Journal of Hydrology 193; Barnes, R., Lehman, C., Mulla, D. (2014): An efficient
///          assignment of drainage direction over flat surfaces in raster DEMs. Computers & Geosciences 62. The weight
///          2 of `toward` is theirs. From memory.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "terrain/direction.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

inline constexpr std::int32_t unreached = std::numeric_limits<std::int32_t>::max() / 4;

struct FlatCell {
    std::int32_t cell = 0;  ///< in the patch
    std::int32_t toward = unreached;
    std::int32_t away = unreached;
    Direction exit = Direction::none;  ///< to the first level neighbour inside the tile that has a direction, if any
};

/// What a tile tells of its rim (along_rim), or what stands in its halo (along_halo).
struct FlatRim {
    std::vector<float> height;
    std::vector<std::int32_t> toward;  ///< 0: has a direction; -1: no value
    std::vector<std::int32_t> away;    ///< unreached if not flat

    explicit FlatRim(std::int64_t cells = 0)
        : height(static_cast<std::size_t>(cells), std::numeric_limits<float>::quiet_NaN()),
          toward(static_cast<std::size_t>(cells), -1),
          away(static_cast<std::size_t>(cells), unreached) {}
};

/// The flats of a tile that touch its rim, one after the other.
struct TileFlats {
    std::int64_t rows = 0;
    std::int64_t columns = 0;
    std::vector<FlatCell> open;
    std::vector<std::uint32_t> ends;  ///< where each flat's cells end in `open`
    std::vector<std::int32_t> owner;  ///< of each rim cell, which of these flats it belongs to; -1 none
    FlatRim rim;
};

/// Room for the counts of a tile's cells, kept from one tile to the next of a thread.
struct FlatScratch {
    std::vector<std::int32_t> toward;  ///< -1 everywhere between two uses
    std::vector<std::int32_t> away;    ///< -1 everywhere between two uses
    std::vector<std::int32_t> queue;
    std::vector<std::int32_t> flat;
    void fit(std::size_t cells);
};

/// Directs every cell of a tile but the open flats, which get Direction::none for now.
/// @param first  the tile's north-west cell in the directions; its rows follow every `stride` values
/// @throws std::invalid_argument for a flat inside the tile that has no way out: the ground was not filled
TileFlats direct_tile(Patch<float> filled, Direction* first, std::int64_t stride, FlatScratch& scratch);

/// Takes in what the halo knows. True if a cell on the rim changed.
bool relax_open_flats(TileFlats& flats, const FlatRim& halo, FlatScratch& scratch);

/// Directs the open flats, once nothing changes any more.
/// @throws std::invalid_argument for a flat that has no way out
void settle_open_flats(const TileFlats& flats, const FlatRim& halo, Direction* first, std::int64_t stride,
                       FlatScratch& scratch);

}  // namespace soilhold::terrain
