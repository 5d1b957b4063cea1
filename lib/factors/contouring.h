/// Contouring: rows on the level, P by land slope, and the slope length beyond which they break over.
///
/// The handbook's classes leave gaps (1-2, 3-5, 6-8 ... %); here a class reaches to the middle of the gap above it.
/// @source AH 537 (1978) Table 13 (from memory): data/reference/contouring.csv. Rows off the contour: AH 703 ch. 6,
///         Pg = Po + (1 - Po) (row grade / land slope)^0.5 (from memory)
#pragma once

#include <optional>
#include <string>

namespace soilhold::factors {

struct Contouring {
    double P = 1.0;
    double length_limit_m = 0.0;
    std::string slope_class;  ///< the row's printed class, "9-12", in %
};

/// The table's row for a land slope; none below 0.5 % (no class) and above 25 %.
/// @param gradient  rise over run
std::optional<Contouring> contouring(double gradient);

/// P of rows that run off the contour. @param P_on_grade  0..1; both grades rise over run, row <= land
double off_grade_contour(double P_on_grade, double row_grade, double land_gradient);

/// With more than half the ground covered after seedlings the limit is a quarter longer.
inline constexpr double heavy_residue_length_factor = 1.25;

}  // namespace soilhold::factors
