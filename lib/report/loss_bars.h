/// Losses as ranges on one scale that begins at zero: a bar from low to high with a tick at the middle, and the
/// planners' mark T as a labelled line across the bars it belongs to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/scene.h"
#include "report/text_block.h"

namespace soilhold::report {

/// One bar. Numbers are in the printed unit.
struct LossRow {
    std::string label;  ///< "Wether Fold, as now"
    double low = 0.0, central = 0.0, high = 0.0;
    std::string middle;          ///< "16 t/ac"
    std::string range;           ///< "12 to 22 t/ac"
    std::optional<double> mark;  ///< T
    bool change = false;         ///< hatched: not how it is farmed now
};

struct LossBars {
    std::vector<LossRow> rows;
    std::string unit;    ///< "t/ac"
    double reach = 0.0;  ///< the axis goes at least this far, so that two charts can share a scale
};

/// The farthest that a bar or a mark reaches.
double reach_of(const LossBars& bars);

/// Steps of 1, 2 or 5 times a power of ten, from 0 to the first at or above `most`. @param most  > 0
std::vector<double> axis_ticks(double most);

/// "4 t/ac": a mark with its unit.
std::string mark_words(double mark, const std::string& unit);

/// @return the y where the next thing may begin
double draw_loss_bars(Group& group, const LossBars& bars, Point top_left, double width, const TextStyle& body,
                      const TextStyle& small, const Measure& measure);

}  // namespace soilhold::report
