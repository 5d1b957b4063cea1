/// Slope steepness factor S [1] by both handbooks; t is the slope angle.
/// @source AH 537 (1978): S = 65.41 sin^2 t + 4.56 sin t + 0.065 (polynomial read in a paper that quotes it).
///         AH 703 (1997) eq. 4-4, 4-5: 10.8 sin t + 0.03 below 9 %, 16.8 sin t - 0.50 from 9 % on (McCool et al. 1987,
///         Trans. ASAE 30:1387-1396), and 3.0 sin^0.8 t + 0.56 for slopes shorter than 15 ft; read in a textbook's
///         reprint. Thawing, recently tilled soil: (sin t/0.0896)^0.6 from 9 % on (from memory)
#pragma once

#include "factors/slope.h"

namespace soilhold::factors {

/// @param gradient  rise over run, >= 0
double steepness_factor_537(double gradient);

/// An earlier polynomial for the whole LS = (length/72.6 ft)^m (430 x^2 + 30 x + 0.43)/6.613, x = sin t: its S. Read in
/// a permit file with a worked value; older reports still use it.
double early_steepness_factor(double sine);

/// S steps from 0.998 to 1.006 at 9 %: the two pieces do not quite meet.
double steepness_factor_703(double gradient);

/// For slopes shorter than 15 ft (4.6 m).
double short_slope_steepness_factor_703(double gradient);

/// For recently tilled, thawing soil; goes with a length exponent of 0.5.
double thawing_steepness_factor_703(double gradient);

/// The one that goes with a rill ratio on slopes of 15 ft and more.
double usual_steepness_factor_703(double gradient, RillRatio rill_ratio);

}  // namespace soilhold::factors
