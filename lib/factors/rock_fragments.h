/// Rock fragments in the soil: K of the whole soil (Kw) from K of the fine earth (Kf).
///
/// Stones within the soil shield it like a mulch. They count once: what is credited here is no surface cover in C.
/// @source National Soil Survey Handbook 618.59 D(7) and 618.92 (read): data/reference/rock-mulch-factor.csv, the
///         zero-canopy curve of AH 537 Fig. 6. The handbook's printed grid of Kw is this factor times Kf, but for three
///         misprints (20 % and .55; 55 % and .55; 55 % and .64)
#pragma once

namespace soilhold::factors {

/// Kw / Kf by volume of fragments, straight between the table's rows and to 1 at no fragments.
/// @param volume_pct  0 to 100, pararock not counted
/// @throws std::invalid_argument outside
double rock_mulch_factor(double volume_pct);

/// Kw by the handbook's rule: below 15 % by volume Kw = Kf.
double whole_soil_erodibility(double fine_earth_erodibility, double volume_pct);

}  // namespace soilhold::factors
