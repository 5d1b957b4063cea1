/// Plane geometry of what is drawn on a map: whether a point lies in a field, how far from its edge, and the place in
/// it that is farthest from all edges, where a number stands best.
#pragma once

#include <vector>

#include "report/scene.h"

namespace soilhold::report {

/// All rings of a field, outer ones and holes: a point is inside where it is within an odd number of them.
using Rings = std::vector<std::vector<Point>>;

bool is_inside(const Rings& rings, Point point);

/// To the nearest edge; infinite without edges.
double distance_to_edge(const Rings& rings, Point point);

/// Whether an edge enters the box.
bool edge_enters(const Rings& rings, const Box& box);

bool overlap(const Box& one, const Box& other);
Box grown(const Box& box, double by);

/// The point inside that is farthest from all edges, to half a point; x counts `squeeze` times, so that a wide label
/// finds a wide place. The middle of mass where that is nearly as far. The first corner where nothing is inside.
Point farthest_inside(const Rings& rings, double squeeze = 1.0);

/// The box around all rings. Zeros for none.
Box bounds_of(const Rings& rings);

/// One outline for all rings, joined by strokes there and back, outer rings one way round and holes the other: what
/// fills it fills the field and leaves its holes.
std::vector<Point> in_one_outline(const Rings& rings);

}  // namespace soilhold::report
