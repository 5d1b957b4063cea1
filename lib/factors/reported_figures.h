/// Single figures as others report them: a map reading, a measured plot, a price of topsoil. Quoted, never worked out.
/// @source data/reference/reported-figures.csv, each row with its own source
#pragma once

#include <string_view>

#include "source/reference_table.h"

namespace soilhold::factors {

/// The row of a quantity and what it is of ("near Indianapolis IN").
/// @throws std::invalid_argument when nobody's figure is at hand
const source::Row& reported_figure(std::string_view quantity, std::string_view of);

}  // namespace soilhold::factors
