/// Slope factors on a grid, where the area that drains through a cell stands for slope length.
///
/// `As` is area per unit width of contour (m2/m), never a count of cells; (m + 1) is left out here, as Moore & Burch
/// do.
/// @source Moore & Burch 1986: (As/22.13)^0.4 (sin b/0.0896)^1.3 (form read in a paper). Desmet & Govers 1996, J. Soil
///         Water Conserv. 51:427-433 (its denominator read; from memory otherwise)
#pragma once

namespace soilhold::factors {

/// LS from unit area. @param area_per_width_m  As, m2/m, > 0 @param gradient  rise over run, >= 0
/// @throws std::invalid_argument otherwise
double unit_area_slope_factor(double area_per_width_m, double gradient);

/// L of a grid cell = [(A + D^2)^(m+1) - A^(m+1)] / (D^(m+2) x^m 22.13^m), x = |sin a| + |cos a|.
/// @param inflow_area_m2  A, >= 0 @param cell_m  D, > 0 @param exponent  m, 0 to 1 @param aspect_rad  a, flow direction
double grid_cell_length_factor(double inflow_area_m2, double cell_m, double exponent, double aspect_rad);

}  // namespace soilhold::factors
