/// Sediment delivery: what share of the soil moved reaches a point downstream. Fitted to basins, not to one field.
///
/// A planning figure at best: basins of one size differ several-fold. None passes 1.
/// @source Vanoni 1975 and USDA-SCS by area (from memory); Boyce 1975 by area (from memory, to be checked: other papers
///         credit other numbers to it); Reckhow et al. 1988 by distance, ln SD = 1.10 - 0.34 ln D, 25 basins of Texas,
///         Oklahoma and southern Kansas (read; the unit of D was not visible)
#pragma once

namespace soilhold::factors {

/// 0.4724 A^-0.125. @param area_km2  > 0 @throws std::invalid_argument otherwise (all functions here)
double delivery_ratio_vanoni(double area_km2);
/// 0.41 A^-0.3.
double delivery_ratio_boyce(double area_km2);
/// 0.5656 A^-0.11.
double delivery_ratio_scs(double area_km2);
/// exp(1.10 - 0.34 ln D).
double delivery_ratio_by_distance(double distance);

}  // namespace soilhold::factors
