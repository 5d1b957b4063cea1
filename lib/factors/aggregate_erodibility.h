/// K by regressions that hold an aggregate measure: the two published bridges from wet sieving to K.
///
/// Each rests on few soils of one region and easily leaves the range 0 to 0.7: the caller clamps and says so. A slake
/// score is neither of these measures.
/// @source As printed in AH 703 (1997) ch. 3: El-Swaify & Dangler 1976, volcanic soils of the tropics (variables read
///         in a paper, coefficients from memory); Young & Mutchler 1977, upper Midwest (from memory, to be checked)
#pragma once

namespace soilhold::factors {

struct VolcanicSoil {
    double unstable_below_250um_pct = 0.0;  ///< x1, share of unstable aggregates below 0.250 mm
    double silt_times_sand = 0.0;           ///< x2, modified silt % times modified sand %
    double base_saturation_pct = 0.0;       ///< x3
    double silt_pct = 0.0;                  ///< x4, 0.002-0.050 mm
    double modified_sand_pct = 0.0;         ///< x5, 0.1-2 mm
};

/// K [US] = -0.03970 + 0.00311 x1 + 0.00043 x2 + 0.00185 x3 + 0.00258 x4 - 0.00823 x5, not clamped.
double volcanic_soil_erodibility_us(const VolcanicSoil& soil);

struct MidwestSoil {
    double aggregate_index = 0.0;
    double montmorillonite_pct = 0.0;
    double bulk_density = 0.0;  ///< t/m3, at 5-12.5 cm
    double silt_times_sand = 0.0;
    double dispersion_ratio = 0.0;
};

/// K [US] = -0.204 + 0.385 x6 - 0.013 x7 + 0.247 x8 + 0.003 x2 - 0.005 x9, not clamped.
double midwest_soil_erodibility_us(const MidwestSoil& soil);

}  // namespace soilhold::factors
