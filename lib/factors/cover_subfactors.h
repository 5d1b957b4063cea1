/// The parts of Handbook 703's soil-loss ratio: prior land use, canopy, surface cover, surface roughness.
///
/// Their product is the ratio of loss to that of the unit plot; lengths in the units the handbook prints, converted at
/// the edge of each function.
/// @source AH 703 (1997) ch. 5 (equations from memory; the canopy curve agrees within 0.02 with a table read in a
/// reprint;
///         the erratum of 2001 that puts the minus sign of eq. 5-9 before its bracket was read)
#pragma once

namespace soilhold::factors {

/// CC = 1 - Fc exp(-0.1 H), H the fall height in ft.
/// @param canopy_fraction  0..1
/// @param fall_height_m    >= 0
double canopy_subfactor(double canopy_fraction, double fall_height_m);

/// SC = exp[-b Sp (0.24/Ru)^0.08], Sp in %, Ru in inches.
/// @param cover_fraction  0..1
/// @param b               per %: 0.025 where rills do little, 0.035 usual cropland, 0.045-0.050 where they do most
/// @param roughness_mm    random roughness, > 0; 6.096 mm is the unit plot's
double surface_cover_subfactor(double cover_fraction, double b, double roughness_mm);

/// SR = exp[-0.66 (Ru - 0.24)], Ru in inches; above 1 on ground smoother than the unit plot's.
double surface_roughness_subfactor(double roughness_mm);

/// Cf: 1 just after tillage, 0.45 after seven undisturbed years, exponential between (the path is this project's
/// reading).
/// @param years  >= 0
double consolidation_subfactor(double years);

/// PLU = Cf Cb exp{-[0.00199 Bur + 0.000416 Bus / Cf^0.5]}, Cb 0.951; masses in lb/(acre in).
/// @param consolidation              Cf, 0.45..1
/// @param roots_lb_acre_in           Bur, >= 0
/// @param buried_residue_lb_acre_in  Bus, >= 0
double prior_land_use_subfactor(double consolidation, double roots_lb_acre_in, double buried_residue_lb_acre_in);

/// Random roughness of the unit plot, 0.24 in.
inline constexpr double unit_plot_roughness_mm = 0.24 * 25.4;

}  // namespace soilhold::factors
