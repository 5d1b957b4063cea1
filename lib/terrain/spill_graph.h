/// The spill graph: basins that overflow into each other at known heights, and how high each fills before it drains.
///
/// The level of a basin is the smallest height h such that water standing at h in it can reach an outlet over saddles
/// none of which is above h. Saddles are taken from the lowest up and basins joined across them (a minimum spanning
/// tree, Kruskal's order); a basin gets its level when what it belongs to first touches something with an outlet.
/// Ties: saddles of one height may be taken in any order, the levels are the same.
/// Memory: some 30 bytes a basin and 12 a saddle. Time: sorting the saddles.
/// @source  Barnes, R. (2016): Parallel priority-flood depression filling for trillion cell digital elevation models
///          on desktops or clusters. Computers & Geosciences 96 (the graph of tile edges);
///          Cordonnier, G., Bovy, B., Braun, J. (2019): A versatile, linear complexity algorithm for flow routing in
///          topographies with depressions. Earth Surface Dynamics 7 (basins and a spanning tree). Both from memory.
#pragma once

#include <cstdint>
#include <vector>

namespace soilhold::terrain {

/// A saddle: the lowest known way between two basins.
struct Saddle {
    std::uint32_t a = 0;
    std::uint32_t b = 0;
    float height = 0;
};

struct SpillLevels {
    std::vector<float> level;           ///< of each basin, m; minus infinity for an outlet, plus where none is reached
    std::vector<std::uint32_t> outlet;  ///< an outlet that the basin reaches at its level
    std::vector<Saddle> between;        ///< what still ties the outlets to each other: at most outlets - 1
};

/// @param basins   how many there are; the first `outlets` of them are outlets, at least one
/// @param saddles  in any order, repeats allowed
SpillLevels spill_levels(std::uint32_t basins, std::uint32_t outlets, std::vector<Saddle> saddles);

}  // namespace soilhold::terrain
