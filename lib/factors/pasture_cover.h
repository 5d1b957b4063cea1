/// C of pasture, range and idle land as people describe it: canopy and fall height at the nearest line of the table.
///
/// Nobody tells 30 from 25 % of canopy by eye, and the table has no lines between; ground cover, which counts most, is
/// taken straight between its columns. A value beyond the table's lines is an error.
#pragma once

#include "factors/cover_tables.h"

namespace soilhold::factors {

/// @throws std::invalid_argument beyond the lines of the table, saying where they lie
spread::Uncertain cover_of_pasture(const PastureCover& cover);

}  // namespace soilhold::factors
