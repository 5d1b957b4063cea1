/// Terraces: they cut the slope length, and hold some of what is moved between them. Two handbooks, two meanings of P.
///
/// Handbook 537: the loss from the field takes the length between terraces and the P of contouring or strips there; its
/// small values (0.05 to 0.18) are for sediment that leaves the field, never for soil loss on it. Handbook 703: one P
/// for what is kept near its place, times the P of what is done between. Do not count the second on top of the first.
/// @source AH 537 (1978) Table 15; AH 703 (1997) ch. 6 (both from memory): data/reference/terraces-537.csv,
///         terraces-703.csv
#pragma once

#include <optional>
#include <string_view>

#include "factors/slope_class.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// What a column of Table 15 is for.
enum class TerraceUse { contoured_between, strips_between, sediment_by_sod_outlet, sediment_by_underground_outlet };

/// P of Handbook 537 for a slope in per cent; none outside 1 to 25 %.
std::optional<double> terrace_factor_537(ClassLimits slope, TerraceUse use);

/// How a terrace lets its water go.
enum class TerraceGrade { closed_outlet, to_0_3_pct, to_0_7_pct, steeper };

/// The grade's class: up to 0.3 %, up to 0.7 %, steeper; gaps joined at their middle.
/// @throws std::invalid_argument for a negative grade
TerraceGrade terrace_grade(double grade_pct);

/// P of Handbook 703 by horizontal distance between terraces in feet; none beyond 300 ft.
std::optional<double> terrace_factor_703(ClassLimits interval_ft, TerraceGrade grade);

/// Which handbook's credit the terraces of a field take; both cut the slope length to the interval.
enum class TerraceMethod {
    handbook_537,  ///< P of what is done between them; what leaves the field is kept apart
    handbook_703,  ///< a P for soil kept near its place, times the P of what is done between
};

enum class TerraceOutlet { sod_channel, underground };

struct Terraces {
    spread::Stated interval_m;  ///< horizontal distance between terraces, m: the slope length between them
    TerraceMethod method = TerraceMethod::handbook_537;
    TerraceOutlet outlet = TerraceOutlet::sod_channel;
    std::optional<double> grade;  ///< rise over run along the terrace; Handbook 703 needs it with a sod channel
};

/// Handbook 537: what share of the loss between terraces leaves the field, the sediment column of Table 15 over its
/// contour column; none outside 1 to 25 %, and none by Handbook 703, whose P holds the trapping already.
/// @param gradient  of the land, rise over run
std::optional<spread::Uncertain> share_past_terraces(const Terraces& terraces, double gradient);

/// Handbook 703: P for soil kept near its place, 1 beyond 300 ft; by Handbook 537 terraces have none of their own.
/// @throws std::invalid_argument for a sod channel without its grade
double terrace_credit(const Terraces& terraces);

}  // namespace soilhold::factors
