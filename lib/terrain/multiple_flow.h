/// Multiple flow: a cell's water goes to all its lower neighbours, more to where it falls more steeply.
///
/// Freeman: share = s^p / sum of s^p, s the fall over the distance to a lower neighbour, p = 1.1, for which a cone
/// sheds its water evenly. Quinn: share = w s / sum of w s, w the contour a way crosses, 0.5 straight and 0.354 across
/// a corner, in cell widths. Both spread water in hollows too, where it would gather; they are for slopes.
///
/// Needs: filled heights about the cell. Changes: nothing. Nodata and what lies outside get no share. Border: water
/// goes to a lower neighbour inside if there is one. Ties: equal falls get equal shares. Memory: none. The shares
/// depend on no order and, by plain arithmetic, on no machine; they sum to 1 within 3e-7.
/// @source  Freeman, T. G. (1991): Calculating catchment area with divergent flow based on a regular grid. Computers &
///          Geosciences 17(3):413-422. Quinn, P., Beven, K., Chevallier, P., Planchon, O. (1991): The prediction of
///          hillslope flow paths for distributed hydrological modelling using digital terrain models. Hydrological
///          Processes 5:59-79. Both from memory
#pragma once

#include "terrain/direction.h"
#include "terrain/flow_shares.h"

namespace soilhold::terrain {

inline constexpr double freeman_exponent = 1.1;

/// @param exponent  p, 0 to 25; the larger, the more goes the steepest way
/// @throws std::invalid_argument for another exponent
FlowShares freeman_shares(const Neighbours& cell, double exponent = freeman_exponent);

FlowShares quinn_shares(const Neighbours& cell);

/// Freeman's rule with p = 1.1.
inline FlowShares freeman_flow(const Neighbours& cell, Direction) { return freeman_shares(cell); }

inline FlowShares quinn_flow(const Neighbours& cell, Direction) { return quinn_shares(cell); }

}  // namespace soilhold::terrain
