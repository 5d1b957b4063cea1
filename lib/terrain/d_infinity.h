/// D-infinity: a cell's water goes down the steepest of the eight triangles around it, to the one or two neighbours
/// that its line of fall lies between.
///
/// A facet joins the cell (e0), a straight neighbour (e1) and the corner beside it (e2): s1 = (e0 - e1)/D, s2 =
/// (e1 - e2)/D, r = atan(s2/s1), s = sqrt(s1^2 + s2^2). A line that would leave the facet runs along its side: r < 0 to
/// the straight neighbour, s = s1; r > 45 degrees to the corner, s = (e0 - e2)/(D sqrt 2). Of the steepest facet the
/// corner gets r/45 degrees, the straight neighbour the rest. Where one of a facet's two neighbours is missing, the
/// line runs to the other (ours).
///
/// Needs: filled heights about the cell. Changes: nothing. Nodata and what lies outside get no share. Border: water
/// goes to a lower neighbour inside if there is one. Ties: the first facet, clockwise from E-SE: on a sharp ridge water
/// goes down one side. Memory: none.
/// @source  Tarboton, D. G. (1997): A new method for the determination of flow directions and upslope areas in grid
///          digital elevation models. Water Resources Research 33(2):309-319. From memory
#pragma once

#include "terrain/direction.h"
#include "terrain/flow_shares.h"

namespace soilhold::terrain {

FlowShares d_infinity_shares(const Neighbours& cell);

inline FlowShares d_infinity_flow(const Neighbours& cell, Direction) { return d_infinity_shares(cell); }

}  // namespace soilhold::terrain
