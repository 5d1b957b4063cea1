/// Residue: how fast it rots, and what tillage leaves of it on the ground.
///
/// M = M0 exp(-a D), a = p min(W, F) per day; W = rain of the half-month / 66 mm, at most 1; F = [2 (T + A)^2
/// (To + A)^2 - (T + A)^4] / (To + A)^4 with To = 32 C, A = 7.8 C, T the mean temperature in C; no rot below -A and
/// none faster than F = 1. Residue on the ground and in it rots at one speed, and so do dead roots (as the handbook has
/// it, from memory).
/// @source AH 703 (1997) eq. 5-7 with its errata of 2001 (read: it works in degrees C only); To, A, 2.6 in of rain and
///         p by residue from memory: data/reference/residues.csv
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "source/citation.h"

namespace soilhold::rotation {

struct Residue {
    std::string name;                  ///< "corn"
    double area_per_mass_acre_lb = 0;  ///< of Sp = 100 [1 - exp(-a Bs)]
    double rot_per_day = 0;            ///< p
    bool fragile = false;              ///< soybeans and the like, of which tillage leaves less
    source::Origin origin;
};

const std::vector<Residue>& all_residues();

/// @throws std::invalid_argument that names the nearest residue, for one there is not
const Residue& residue_of(std::string_view name);

/// F, 0..1. @param temperature_C  mean of the half-month
double warmth_of_rot(double temperature_C);

/// W, 0..1. @param rain_mm  of the half-month, >= 0
double moisture_of_rot(double rain_mm);

/// a per day = p min(W, F).
double rot_per_day(double p, double temperature_C, double rain_mm);

/// The share of its mass that stays on the ground when a tool leaves `left` of its cover: by Sp = 1 - exp(-x) on both
/// sides, ln(1 - left (1 - exp(-x))) / -x with x the mass in units of 1/a. Close to `left` where residue is thin, less
/// where it lies thick.
/// @param cover_exponent  x >= 0 @param left  0..1
double mass_share_left(double cover_exponent, double left);

}  // namespace soilhold::rotation
