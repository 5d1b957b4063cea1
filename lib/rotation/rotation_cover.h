/// C of a rotation with its doubt and its working: what a field takes from its calendar.
///
/// The doubt: each part of the calendar is moved to its low and to its high alone (data/reference/rotation-doubts.csv,
/// wide where rows are from memory), and the moves of ln C are joined as squares, upwards and downwards each for
/// itself. A transect reading narrows residue and burial.
/// @source our assumption for the spreads; the calendar as in cover_calendar.h
#pragma once

#include <optional>
#include <vector>

#include "rotation/calibration.h"
#include "rotation/cover_calendar.h"

namespace soilhold::rotation {

/// How far one part alone moves C.
struct Doubt {
    std::string part;              ///< of rotation-doubts.csv
    double low = 1, high = 1;      ///< factor on the part
    double C_low = 0, C_high = 0;  ///< C with the part so moved
};

struct RotationCover {
    spread::Uncertain C;  ///< with steps and remarks
    Calendar calendar;    ///< at the central values, set by the reading if there is one
    std::vector<Doubt> doubts;
    std::optional<Calibration> set_by;
};

/// @throws std::invalid_argument as cover_calendar() and calibrated()
RotationCover cover_of_rotation(const Rotation& rotation, const Climate& climate,
                                const std::optional<TransectReading>& reading = {});

/// Of another way to farm the same ground: residue and burial moved as a reading moved them in the first.
RotationCover cover_of_rotation(const Rotation& rotation, const Climate& climate, const Calibration& set_before);

/// ln of C over its central value when one part of the calendar lies at a normal score: straight from its low (-1.96)
/// over 0 to its high (1.96).
double log_move(const Doubt& doubt, double C, double score);

}  // namespace soilhold::rotation
