/// How the flats of all tiles come to agree: rounds in which each tile reads what its neighbours knew after the round
/// before, until no rim changes (tile_flats.h).
///
/// Memory: the rims of all tiles, and once more of those that changed in a round.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "terrain/tile_flats.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// What stands in the halo of a tile, from the rims of the tiles around it.
FlatRim flat_halo(const TileCut& cut, std::int64_t number, const std::vector<FlatRim>& rims);

/// @param rims   of all tiles; on return as all agree
/// @param open   of each tile, whether it has open flats
/// @param relax  takes in what a tile's halo knows; the tile's new rim if that changed it. Several threads at once
void agree_on_flats(const TileCut& cut, std::vector<FlatRim>& rims, const std::vector<std::uint8_t>& open, int threads,
                    const std::function<std::optional<FlatRim>(std::int64_t number, const FlatRim& halo)>& relax);

}  // namespace soilhold::terrain
