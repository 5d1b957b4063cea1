/// C of a year from cropstages: the soil-loss ratio of each stage, weighted by the share of the year's erosivity in it.
///
/// The weight is erosivity, not days: a bare month without rain costs nothing. Stages of Handbook 537: F rough fallow,
/// SB seedbed to 10 % canopy, P1 to 50 %, P2 to 75 %, P3 to harvest (with its final canopy in %: P3_80), P4L stubble
/// with the residue left.
/// @source AH 537 (1978) Table 5, lines 1-4 only (from memory): data/reference/soil-loss-ratios.csv
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "source/citation.h"

namespace soilhold::factors {

/// The soil-loss ratio of corn after corn, turn-ploughed in spring, by line of the table, as a fraction.
/// @throws std::invalid_argument for a line or stage from which nothing is at hand
double soil_loss_ratio(int line, std::string_view cropstage);

/// The stages that a line of the table has at hand; none for a line it lacks.
std::vector<std::string> stages_of_line(int line);

/// Of the ratio that soil_loss_ratio() takes. @throws as it does
source::Origin soil_loss_ratio_origin(int line, std::string_view cropstage);

/// One stage of the year.
struct Stage {
    double soil_loss_ratio = 0.0;  ///< fraction of the unit plot's loss
    double erosivity_share = 0.0;  ///< of the year's R, 0..1
};

/// C = sum ratio x share. @throws std::invalid_argument unless the shares sum to 1 within 0.005
double cover_factor_of_stages(std::span<const Stage> stages);

}  // namespace soilhold::factors
