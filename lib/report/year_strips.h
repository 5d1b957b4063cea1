/// The year as a strip from January to December, one for each way to farm on one axis and one scale: cover of the
/// ground above, rain's force below, the soil that leaves between them; tools and seedings as flags over it.
///
/// Bars are half-months. Solid and striped straw, solid earth and hanging strokes of rain tell the bands apart in grey.
#pragma once

#include <string>
#include <vector>

#include "report/scene.h"
#include "report/text_block.h"
#include "report/year_flags.h"

namespace soilhold::report {

struct YearBar {
    double ground = 0;  ///< share covered by residue and crowns, 0..1
    double shade = 0;   ///< share under leaves alone, 0..1; with `ground` at most 1
    double loss = 0;    ///< in the printed unit, in this half-month
    double rain = 0;    ///< share of a year's force of rain, 0..1
};

/// One year of the rotation, or the mean of them.
struct YearPanel {
    std::string heading;        ///< "Year 1 of 2"; "" when there is one year
    std::vector<YearBar> bars;  ///< 24
    std::vector<YearFlag> flags;
};

struct YearStrip {
    std::string name;    ///< "As now"
    std::string amount;  ///< "12 t/ac a year (likely 8 to 19)"
    std::vector<YearPanel> panels;
};

struct YearPicture {
    std::vector<YearStrip> strips;
    std::string unit;                                ///< "t/ac"
    double band_height = 100;                        ///< of the three bands of a strip together, points
    std::size_t season_first = 0, season_count = 0;  ///< half-months shaded; none for 0
    std::string season;                              ///< "16 April to 30 June"
};

/// @return the y where the next thing may begin
double draw_year_strips(Group& group, const YearPicture& picture, Point top_left, double width, const TextStyle& body,
                        const TextStyle& small, const Measure& measure);

}  // namespace soilhold::report
