/// Setting a calendar by one reading of residue: a tape laid across the rows on a known day.
///
/// One reading can't tell less residue from more burial, so both are moved together by one factor f: the mass of all
/// residue times f, and the share of cover that every tool leaves to the power 1/f. f is sought so that the residue
/// cover at the end of that day is the reading; it rises with f without a turn. What the calendar says of other days
/// moves along.
/// @source our assumption
#pragma once

#include "rotation/calendar_plan.h"
#include "rotation/rotation.h"
#include "source/step.h"

namespace soilhold::rotation {

struct Calibration {
    double factor = 1;            ///< f, 0.05 to 20
    double cover_before_pct = 0;  ///< what the calendar said of that day
    double cover_after_pct = 0;   ///< what it says now
    bool met = true;              ///< within 1 % cover of the reading
    Adjustments adjustments;
    source::Remarks remarks;
};

/// @throws std::invalid_argument for a reading outside 0..100 % or a day outside the rotation, and as cover_calendar()
Calibration calibrated(const Rotation& rotation, const Climate& climate, const TransectReading& reading);

}  // namespace soilhold::rotation
