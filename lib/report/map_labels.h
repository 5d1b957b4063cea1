/// Where the numbers of fields stand on a map: in the field, at the place farthest from its edges; beside it with a
/// line to it where the field is too small. No two overlap, and none lies on another field.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/map_geometry.h"
#include "report/scene.h"

namespace soilhold::report {

struct PlacedLabel {
    std::size_t field = 0;  ///< as in `fields`
    Text text;
    Box box;
    std::optional<Line> lead;  ///< from the label to the field, for one that stands outside
};

/// @param fields  rings in points on the sheet, and what is to be set in each, the most important first
/// @param frame   nothing is set outside it
/// @param lines   lines across the map, such as streams, that numbers keep off where they can
/// @param led     so many of the first may stand beside their field with a line; more lines would cover the map
/// @return  those that found a place; a field that is not among them found none
std::vector<PlacedLabel> place_labels(const std::vector<Rings>& fields, const std::vector<std::string>& words,
                                      const Box& frame, const std::vector<std::vector<Point>>& lines, std::size_t led,
                                      const Measure& measure);

}  // namespace soilhold::report
