/// Which share of a cell's water goes to each of its eight neighbours: the common ground of single, multiple and
/// two-way routing.
///
/// Shares are 0 to 1 and sum to 1, or are all 0 where a rule sees no lower neighbour: then the single direction of
/// flow_directions.h decides, which leads over level ground and out of the grid.
#pragma once

#include <array>
#include <cstddef>
#include <functional>

#include "terrain/direction.h"
#include "terrain/horn_slope.h"

namespace soilhold::terrain {

/// Shares by way, in the order of direction.h: E, S, W, N, SE, SW, NW, NE.
struct FlowShares {
    std::array<float, 8> way{};
    bool any() const {
        for (const float share : way)
            if (share > 0) return true;
        return false;
    }
};

/// All to one neighbour, or none at all for an outlet or a cell without a value.
inline FlowShares single_flow_shares(Direction direction) {
    FlowShares shares;
    if (leads_on(direction)) shares.way[static_cast<std::size_t>(direction) - 1] = 1;
    return shares;
}

/// The way that leads back: west for east.
inline std::size_t way_back(std::size_t way) { return way < 4 ? (way + 2) % 4 : 4 + (way + 2) % 4; }

/// A rule of routing: the heights about a cell and its single direction give its shares.
using ShareRule = std::function<FlowShares(const Neighbours&, Direction)>;

/// The rule of single directions.
inline FlowShares single_flow(const Neighbours&, Direction direction) { return single_flow_shares(direction); }

}  // namespace soilhold::terrain
