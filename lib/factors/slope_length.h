/// Slope length factor L [1] = (length / unit plot)^m, and its exponent m by both handbooks.
///
/// The unit plot is 72.6 ft long (22.13 m); lengths are horizontal. The handbooks' L goes with their own S only.
/// @source AH 537 (1978) p. 14-15 for m by class (from memory; the edges 3-3.5 % and 4.5-5 % are undefined there and
/// are
///         taken here as: 5 % and more 0.5, 3.5 % 0.4, 1 % 0.3, less 0.2). AH 703: McCool et al. 1989, Trans. ASAE
///         32:1571-1576, m = b/(1+b), b = (sin t/0.0896)/(3 sin^0.8 t + 0.56) for a moderate rill ratio (its
///         one-fraction form read in a textbook), half b for low, double b for high (from memory)
#pragma once

#include "factors/slope.h"

namespace soilhold::factors {

/// Sine of the slope angle of a gradient (rise over run): sin(atan g).
double sine_of(double gradient);

/// m of Handbook 537. @param gradient  rise over run, >= 0
double length_exponent_537(double gradient);

/// m of Handbook 703; 0.5 for thawing soil. @param gradient  rise over run, >= 0
double length_exponent_703(double gradient, RillRatio rill_ratio);

/// L = (length / 22.13 m)^m. @param length_m  horizontal, > 0
double slope_length_factor(double length_m, double exponent);

}  // namespace soilhold::factors
