/// What was done to the pits of a map, as JSON: the same keys for every command that drains ground.
#pragma once

#include <nlohmann/json.hpp>

#include "terrain/breaching.h"
#include "terrain/depressions.h"

namespace soilhold::report {

/// `pits`, `cells_raised`, `deepest_m`, `volume_m3`.
nlohmann::ordered_json filled_json(const terrain::FillReport& filled);

/// The limits `longest_cut_m` and `deepest_cut_m` as asked; `pits`, `pits_left`, `cells_lowered`, `longest_m`,
/// `deepest_m`, `volume_m3` as found.
nlohmann::ordered_json cut_json(const terrain::CutLimits& limits, const terrain::BreachReport& cut);

}  // namespace soilhold::report
