/// P by an older table with other slope classes (2-7, 7.1-12, 12.1-18, 18.1-24 %): what many reports still quote.
///
/// Its classes are not those of Handbook 537 Table 13; the two are alternatives, never mixed.
/// @source US EPA 1976, read in an engineering textbook's reprint: data/reference/practice-1976.csv (its 0.78 may be a
///         slip for 0.75)
#pragma once

#include <string_view>

#include "factors/slope_class.h"

namespace soilhold::factors {

/// @param slope     in per cent, within one class
/// @param practice  "up and down hill", "cross-slope without strips", "contour", "cross-slope with strips",
///                  "contour strip-cropping"
/// @throws std::invalid_argument where the table has no such cell
double practice_factor_1976(ClassLimits slope, std::string_view practice);

}  // namespace soilhold::factors
