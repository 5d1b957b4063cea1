/// Soak tests as what was seen: one small clod drawn for each clod, whole to gone, in a row for each field.
///
/// A thin outline is the clod as it went into the water; the solid part is what was left of it. Dark area falls with
/// every class, so that the row reads in grey and without the labels.
/// @source slake classes 0 to 6 of Herrick et al. 2001, rules as read in a reprint
#pragma once

#include <array>
#include <string>
#include <vector>

#include "report/scene.h"
#include "report/text_block.h"

namespace soilhold::report {

/// The clods of one field.
struct ClodRow {
    std::string name;
    std::string count;            ///< "16 of 18 held"
    std::array<int, 7> by_class;  ///< clods in class 0..6
};

/// One clod about `middle`: whole, a smaller lump, a heap of crumbs, nothing. @param variant  chooses among a few
/// shapes, so that no two neighbours are twins
void draw_clod(Group& group, Point middle, double size, int slake_class, std::size_t variant);

/// The rows, whole clods first, and a key of the seven classes under them.
/// @param small  the style of the labels
/// @return the y where the next thing may begin
double draw_clod_rows(Group& group, const std::vector<ClodRow>& rows, Point top_left, double width,
                      const TextStyle& body, const TextStyle& small, const Measure& measure, bool with_key = true);

}  // namespace soilhold::report
