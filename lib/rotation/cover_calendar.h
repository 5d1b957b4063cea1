/// Cover and management C [1] worked through the years of a rotation, half-month by half-month.
///
/// Soil-loss ratio SLR = PLU CC SC SR (SM, soil moisture, is 1 outside the Northwest wheat region and is left out);
/// C = sum SLR x share of the erosivity. The parts are those of factors/cover_subfactors.h; what they need is followed
/// through time: canopy and height (canopy.h), residue on the ground and in the top 4 inches (decomposition.h), roots,
/// roughness and consolidation (roughness.h). The rotation is run until its end is its beginning; residue rots exactly
/// from event to event, and the ratio is taken at the middle of steps of about 5 days.
/// Units inside the parts are the handbook's; the rows are SI.
/// @source AH 703 (1997) ch. 5 (from memory; errata of 2001 read); steady state, growth by warmth and the mixing of
///         partly disturbed ground are ours: docs/cover-calendar.md
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rotation/calendar_plan.h"
#include "rotation/rotation.h"

namespace soilhold::rotation {

/// One half-month of one year; means over its days, masses dry.
struct CalendarRow {
    int year = 1;                ///< of the rotation
    std::size_t half_month = 0;  ///< 0..23
    Day begins;
    double canopy = 0;         ///< share of the ground
    double height_m = 0;       ///< of the tallest crop
    double fall_height_m = 0;  ///< from which drops fall, mean of the canopies
    double cover_pct = 0;      ///< residue and living crowns on the ground
    double residue_cover_pct = 0;
    double residue_on_kg_ha = 0;
    double residue_in_kg_ha = 0;  ///< in the top 4 inches
    double roots_kg_ha = 0;       ///< living and dead, in the top 4 inches
    double roughness_mm = 0;
    double Cf = 0;  ///< consolidation, part of PLU
    double PLU = 0, CC = 0, SC = 0, SR = 0;
    double SLR = 0;                       ///< mean of the products, not the product of the means
    double erosivity_share = 0;           ///< of the whole rotation's erosivity
    double contribution = 0;              ///< SLR x erosivity_share: the rows sum to C
    std::vector<std::string> happenings;  ///< "chisel plow", "corn planted"
};

struct Calendar {
    int years = 1;
    std::vector<CalendarRow> rows;  ///< 24 a year
    double C = 0;
    std::vector<double> C_of_year;
    double PLU = 0, CC = 0, SC = 0, SR = 0;  ///< means weighted by erosivity
    double cover_pct = 0;                    ///< likewise
    double mean_consolidation = 1;           ///< Cf likewise: 1 always just tilled, 0.45 seven years at rest
    double years_at_rest = 0;                ///< 0..7, that give this mean Cf
    /// Mean years since a tool last moved half the surface or more, weighted by erosivity; none if no tool does.
    std::optional<double> years_since_tillage;
    /// How much of what rest does to a soil C credits: 0 tilled ground, 1 seven years at rest; (1 - Cf)/(1 - 0.45).
    double credited_share = 0;
    bool steady = true;                      ///< end and beginning agree
    std::optional<double> probed_cover_pct;  ///< residue cover at the end of the probed day
    std::vector<std::string> cold_deaths;    ///< crops that the cold kills
};

/// @param step_days  longest step, above 0
/// @throws std::invalid_argument with the first of problems_of(), or for a climate whose shares do not sum to 1
Calendar cover_calendar(const Rotation& rotation, const Climate& climate, const Adjustments& adjustments = {},
                        const std::optional<Day>& probe = {}, double step_days = 5.0);

}  // namespace soilhold::rotation
