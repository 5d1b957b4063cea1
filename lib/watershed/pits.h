/// What is done with the pits of a map of heights: banks that dam water up are cut through within limits, or every pit
/// is filled; and what a careful colleague would ask about it. The limits of the cautions are our own.
#pragma once

#include <optional>
#include <string>

#include "source/remark.h"
#include "terrain/breaching.h"
#include "terrain/depressions.h"

namespace soilhold::watershed {

struct PitRules {
    std::optional<terrain::CutLimits> cuts;  ///< none: pits are filled only

    /// What messages call them.
    std::string breach = "--pits breach", longest = "--longest-cut", deepest = "--deepest-cut";
};

struct PitReport {
    std::optional<terrain::BreachReport> cut;  ///< none: pits were filled only
    terrain::FillReport filled;                ///< after that
};

/// @throws raster::RasterError where a cut would be searched over more cells than terrain::most_reach
void check_cuts(const std::string& path, const PitRules& rules, double cell_m);

/// "Up to 100 m long and 3 m deep".
std::string limits_in_words(const terrain::CutLimits& limits);

/// @param cells  with a height
void add_pit_cautions(const std::string& path, const PitRules& rules, const PitReport& pits, double cell_m,
                      std::int64_t cells, source::Remarks& remarks);

}  // namespace soilhold::watershed
