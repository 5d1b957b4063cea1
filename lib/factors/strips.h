/// Contour strip-cropping: P by slope and rotation, the widest strip, and the slope length beyond which strips break
/// over.
///
/// Rotation A: row crop, small grain with meadow seeding, two years of meadow. B: two years of row crop, grain, one of
/// meadow. C: row crop and grain by turns, no meadow; it earns no more than contouring.
/// @source AH 537 (1978) Table 14 (from memory): data/reference/contour-strips.csv; its widths read: strip-widths.csv
#pragma once

#include <optional>

#include "factors/slope_class.h"

namespace soilhold::factors {

enum class StripRotation { meadow_two_years, meadow_one_year, no_meadow };

struct ContourStrips {
    double P = 1.0;
    double width_m = 0.0;
    double length_limit_m = 0.0;
};

/// The table's row for a slope in per cent; none below 1 % and above 25 %.
std::optional<ContourStrips> contour_strips(ClassLimits slope, StripRotation rotation);

}  // namespace soilhold::factors
