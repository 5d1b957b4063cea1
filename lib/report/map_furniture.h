/// What stands around a watershed's map: a scale bar, a north arrow, what the dots and lines mean, the first ten
/// fields.
#pragma once

#include <string>
#include <vector>

#include "report/scene.h"
#include "report/text_block.h"
#include "report/watershed_map.h"

namespace soilhold::report {

inline constexpr std::size_t listed_fields = 10;
inline constexpr double heavy_outline = 1.3, thin_outline = 0.45, stream_width = 0.9;  ///< points

/// A length that reads well on the ground and is about `wanted` points long on paper.
struct BarLength {
    double metres = 0;
    std::string words;  ///< "1/2 mile", "500 m"
};
BarLength bar_length(double scale, double wanted, units::System system);

/// The bar in four parts with its length, the scale, and how to check it with a ruler; `top_left` is the bar's corner.
/// @return the x to the right of it
double draw_scale_bar(std::vector<Group>& groups, double scale, Point top_left, units::System system,
                      const TextStyle& small, const Measure& measure);

/// An arrow 26 points tall with an N, its foot in the middle of `foot`.
void draw_north_arrow(std::vector<Group>& groups, Point foot, const TextStyle& small);

/// @param fineness  of the map's dots and outlines
/// @return the y below it
double draw_legend(std::vector<Group>& groups, const WatershedMap& map, std::size_t without_number, double fineness,
                   Point top_left, double width, const TextStyle& body, const TextStyle& small, const Measure& measure);

/// The first ten by rank, with brackets at what the doubt does not tell apart. @return the y below it
double draw_first_fields(std::vector<Group>& groups, const WatershedMap& map, Point top_left, double width,
                         units::System system, const TextStyle& body, const TextStyle& small, const Measure& measure);

}  // namespace soilhold::report
