/// Accumulation in one tile, and what crosses its rim.
///
/// A tile is summed as if nothing ran into it. Its record says, of each rim cell, what leaves the tile there and,
/// should something arrive there from outside, by which rim cell it would leave again. Once all that arrives is known
/// (join_flows) it is added along the way it takes through the tile; ways that meet go on as one.
///
/// Needs: directions with their halo. Memory: 10 bytes a cell of the tile while it is worked, 13 a rim cell to keep.
/// @source  Barnes (2017), see accumulation.h. From memory.
#pragma once

#include <cstdint>
#include <vector>

#include "terrain/direction.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Where each cell's water goes: 1 to 8 a way (Direction), 0 it ends. Barriers are worked in: what would run into one
/// ends before it. Outside the tile the halo still says what runs into the tile.
using Ways = Patch<std::uint8_t>;

/// @param barriers  null if there are none
Ways ways_of(const Patch<Direction>& directions, const Patch<std::uint8_t>* barriers);

/// What a tile tells of its rim (along_rim).
struct FlowRim {
    static constexpr std::int32_t ends = -1;     ///< what arrives here stays in the tile
    static constexpr std::int32_t nothing = -2;  ///< nothing arrives here

    std::vector<double> leaves;       ///< what leaves the tile from here
    std::vector<std::uint8_t> way;    ///< by which way; 0 if nothing leaves from here
    std::vector<std::int32_t> again;  ///< what arrives here leaves at this place of the rim
};

/// Sums a tile alone.
/// @param sums    on entry what each cell brings; on return what drains through it from the tile. The halo is used up.
/// @throws std::invalid_argument for directions that run in a circle
FlowRim accumulate_tile(const Ways& ways, Patch<double>& sums);

/// Gives each tile what arrives at its rim cells.
/// @throws std::invalid_argument for directions that run in a circle
std::vector<std::vector<double>> join_flows(const TileCut& cut, const std::vector<FlowRim>& rims);

/// Adds what arrives along its way through the tile.
/// @param first  the tile's north-west cell of the sums; its rows follow every `stride` values
void add_arrivals(const Ways& ways, const FlowRim& rim, const std::vector<double>& arrives, double* first,
                  std::int64_t stride);

}  // namespace soilhold::terrain
