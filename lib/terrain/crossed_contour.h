/// How much contour a cell's water crosses, in cell widths, from the way it is routed: x of the slope length on a grid.
///
/// x = 1 / |sum of share k times step k|, step k the way to neighbour k in cell widths (1, or sqrt 2 across a corner):
/// if all cells around send their water alike, a cell's sum Q moves |mean step| on, so Q times it, over D, crosses each
/// metre of contour. With it the slope length on any plane is the length of the routed way: single directions across
/// corners, or water that spreads, give the LS of the hillslope. The paper's x = |sin a| + |cos a| does so along the
/// grid's rows and columns only: on a slope that faces a corner its length is half the hillslope's with single
/// directions, and 0.7 of it with Freeman's shares. Our own; no source.
///
/// Where shares go opposite ways the mean step vanishes; it counts at least half a cell, as on a ridge that sheds half
/// of its cell to each side. So x is 0.71 to 2.
/// Needs: filled elevations and their directions. Changes: nothing. Nodata (Direction::none): NaN. Border: an outlet
/// has no step to be measured: 1. Ties: those of the rule. Memory: 4 bytes a cell. Each cell is local: the same bits
/// for any tile side and number of threads.
#pragma once

#include "terrain/direction.h"
#include "terrain/flow_shares.h"
#include "terrain/grid.h"
#include "terrain/tiles.h"

namespace soilhold::terrain {

/// Of one cell; 1 for one without shares.
float crossed_contour_of(const FlowShares& shares);

/// @throws std::invalid_argument for grids of other shapes
Grid<float> crossed_contour(const Grid<float>& filled, const Grid<Direction>& directions, const ShareRule& rule,
                            const Tiling& tiling = {});

}  // namespace soilhold::terrain
