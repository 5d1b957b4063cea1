/// Erosivity R from rain totals: what can be said where no gauge record and no map value is at hand.
///
/// Fitted to stations of the conterminous United States, SI units; not for snow-dominated or winter-frontal climates.
/// @source Renard & Freimund 1994, J. Hydrology 157:287-306 (from memory). Arnoldus's index F = sum p^2 / P: form read.
#pragma once

#include <array>

namespace soilhold::factors {

/// R = 0.0483 P^1.610 up to P = 850 mm; 587.8 - 1.219 P + 0.004105 P^2 above.
/// @param annual_rain_mm  P, mean annual rain, mm, > 0
/// @return                R, MJ mm/(ha h yr)
/// @throws std::invalid_argument for P not above 0
double erosivity_from_annual_rain(double annual_rain_mm);

/// Modified Fournier index F = sum p_i^2 / P, mm.
/// @param monthly_rain_mm  twelve mean monthly totals, mm, none negative, not all 0
/// @throws std::invalid_argument otherwise
double modified_fournier_index(const std::array<double, 12>& monthly_rain_mm);

/// R = 0.7397 F^1.847 below F = 55 mm; 95.77 - 6.081 F + 0.4770 F^2 from 55.
/// A widespread misprint has 0.07397: with it R would jump tenfold at 55 mm.
/// @return  R, MJ mm/(ha h yr)
/// @throws std::invalid_argument for an index not above 0 (as the two below)
double erosivity_from_fournier_index(double index_mm);

/// log10 R = 1.74 log10 F + 1.29 (Rango & Arnoldus 1987; equation read in a paper that quotes it). The paper says
/// MJ mm/(ha h yr), but its R is some twenty times that of the relation above: check its unit before using it.
double erosivity_rango_arnoldus(double index_mm);

/// R = 4.17 F - 152 (Arnoldus 1980, from memory), not below 0. MJ mm/(ha h yr)
double erosivity_arnoldus_1980(double index_mm);

/// R = 27.38 P^2.17 of Handbook 537 for the western United States (from memory), hundreds of ft tonf in/(acre h yr).
/// @param two_year_six_hour_rain_in  P, inches, > 0
double erosivity_from_six_hour_rain_us(double two_year_six_hour_rain_in);

}  // namespace soilhold::factors
