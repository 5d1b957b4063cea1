/// Crop residue: how much ground a mass of it covers, and what tillage leaves of it; roughness as rain wears it down.
/// @source AH 703 (1997) ch. 5: Sp = 100 [1 - exp(-a Bs)], a by crop (Table 5-1; corn from memory and consistent with
///         three printed masses, other crops less surely: data/reference/residue-cover.csv). Roughness: from memory.
///         What one pass of a mulch tiller leaves: an implement maker's table, read (mulch-tiller.csv)
#pragma once

#include <string_view>

namespace soilhold::factors {

/// a of a crop, acre/lb. @throws std::invalid_argument for a crop it lacks
double residue_area_per_mass_acre_lb(std::string_view crop);

/// Cover % of the ground. @param mass_lb_acre  Bs, >= 0 @param area_per_mass_acre_lb  a, > 0
double residue_cover_pct(double mass_lb_acre, double area_per_mass_acre_lb);

/// The mass that covers so much: the inverse. @param cover_pct  0 to below 100
double residue_mass_for_cover_lb_acre(double cover_pct, double area_per_mass_acre_lb);

/// Cover % left after one pass of a mulch tiller; straight between the starting covers of the table and to none at
/// none.
/// @param shovel_in  2, 3 or 4 inches @param fragile  soybeans, beans, peas, light wheat, sunflower, peanuts, cotton
/// @throws std::invalid_argument otherwise
double cover_after_mulch_tiller_pct(double start_cover_pct, int shovel_in, bool fragile);

/// Dr = exp[1/2 (-0.14 Pt) + 1/2 (-0.012 EIt)]: share of roughness above the unit plot's that rain has left.
/// @param rain_in  Pt, inches since tillage, >= 0 @param erosivity_us  EIt, hundreds of ft tonf in/(acre h), >= 0
double roughness_left(double rain_in, double erosivity_us);

/// Ru = 0.24 + Dr (Ri - 0.24), inches, given and returned in mm.
double weathered_roughness_mm(double initial_roughness_mm, double roughness_share_left);

/// Ra = 0.24 + (Rt - 0.24) {0.8 [1 - exp(-0.0012 Bu)] + 0.2}: roughness an operation leaves in soil with so much
/// biomass.
/// @param tabled_roughness_mm  Rt of the operation @param biomass_lb_acre_in  Bu in the top 4 inches, >= 0
double roughness_after_operation_mm(double tabled_roughness_mm, double biomass_lb_acre_in);

}  // namespace soilhold::factors
