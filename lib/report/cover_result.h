/// When in the year a field's soil is lost, under each way to farm it: what the cover page and its tables show.
///
/// A half-month's part of the loss is its part of C, ratio times share of the rain's force; the tons go with it.
/// @source calendar as in rotation/cover_calendar.h; that shade and residue overlap by chance is our assumption
#pragma once

#include <array>
#include <string>
#include <vector>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

/// One way to farm the field, with its calendar.
struct CoverWay {
    std::string name;      ///< "as now", or the change's own
    std::string rotation;  ///< "corn-soybean, fall plow", or what was changed
    bool as_now = true;
    loss::FactorValue C;
    spread::Interval loss;  ///< t/(ha yr)
    rotation::RotationCover cover;
};

struct CoverOfField {
    const loss::FieldEstimate* estimate = nullptr;
    std::vector<CoverWay> ways;  ///< as now first, where its C is worked through a rotation
    source::Origin temperature_origin, rain_origin, erosivity_origin;
};

/// The fields that have a calendar, in order; they point into `comparison`. Ways without one are left out.
std::vector<CoverOfField> cover_of_fields(const change::Comparison& comparison);

/// Share of the ground that drops don't reach at once, 0..1: residue and crowns, and leaves over the rest of it.
double shielded(const rotation::CalendarRow& row);

/// Share of the loss in a half-month of the rotation, 0..1.
double share_of_loss(const rotation::Calendar& calendar, const rotation::CalendarRow& row);

/// Half-months that follow each other, maybe over the turn of the year.
struct Season {
    std::size_t first = 0, count = 0;
    double loss = 0;      ///< share of the year's, 0..1
    double rain = 0;      ///< share of the year's force of rain
    double shielded = 0;  ///< mean share of the ground
    bool holds(std::size_t half_month) const { return (half_month + 24 - first) % 24 < count; }
};

/// The shortest season that holds at least `least` of the loss, mean of the years; of equal ones that with most.
Season season_of_loss(const rotation::Calendar& calendar, double least = 0.6);

/// The season as it is under another calendar.
Season same_season(const Season& season, const rotation::Calendar& calendar);

/// "16 April"; the last day of a half-month with `last`.
std::string date_of(std::size_t half_month, bool last = false);

/// "Of Wether Fold's soil loss, 61 % comes between 16 April and 30 June, when ..."
std::string season_sentence(const CoverOfField& field);

/// What the other ways change in those weeks, a sentence each.
std::vector<std::string> way_sentences(const CoverOfField& field, units::System system);

/// The first letter of a sentence.
std::string capital(std::string text);

/// Tons of a loss per area in two figures, two decimals at most: "1.3", "0.04", "0".
std::string tons(double si, units::System system);

}  // namespace soilhold::report
