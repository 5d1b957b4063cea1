/// What follows from a loss, in words: where on a bent slope it goes, what leaves the field, how long a layer lasts,
/// what goes with the soil, the index of the land and what may reach the water.
#pragma once

#include <string>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

/// One block for all fields, with a heading of its own.
std::string what_follows(const change::Comparison& comparison, units::System system);

/// "and 4.2 t/ac leave the field (likely 3 to 6): ...": what terraces or strips let past.
std::string leaving_sentence(const loss::Leaving& leaving, units::System system);

}  // namespace soilhold::report
