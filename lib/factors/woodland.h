/// C of woodland by canopy and by duff on the forest floor; not of logged, burnt or grazed ground.
/// @source AH 537 (1978) Table 11 (from memory; its last band read in a USDA copy): data/reference/woodland.csv. An
///         extension reprint with one value a row, read: undisturbed-forest.csv
#pragma once

#include <optional>
#include <string>

#include "source/citation.h"

namespace soilhold::factors {

struct CoverRange {
    double low = 0.0;
    double high = 0.0;
    std::string band{};       ///< "canopy 100-75 %, duff 100-90 %"
    source::Origin origin{};  ///< of the row
};

/// The rows of the handbook's table in words, for a message.
std::string woodland_bands();

/// C's range in the band that holds both covers; none where canopy and duff fall in different bands or in no band.
/// @throws std::invalid_argument for covers outside 0-100 %
std::optional<CoverRange> woodland_cover_factor(double canopy_pct, double duff_pct);

/// The reprint's single value: the richest row whose canopy and litter the ground reaches; none below the last.
std::optional<double> undisturbed_forest_cover_factor(double canopy_pct, double litter_pct);

}  // namespace soilhold::factors
