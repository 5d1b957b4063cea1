#include "rotation/calibration.h"

#include <cmath>
#include <stdexcept>

#include "rotation/cover_calendar.h"

namespace soilhold::rotation {

namespace {

Adjustments moved_by(double factor) {
    Adjustments adjustments;
    adjustments.residue = factor;
    adjustments.left = 1.0 / factor;
    return adjustments;
}

double cover_on(const Rotation& rotation, const Climate& climate, const TransectReading& reading, double factor) {
    return cover_calendar(rotation, climate, moved_by(factor), reading.on, 365.0).probed_cover_pct.value_or(0.0);
}

}  // namespace

Calibration calibrated(const Rotation& rotation, const Climate& climate, const TransectReading& reading) {
    if (!(reading.cover_pct >= 0 && reading.cover_pct <= 100))
        throw std::invalid_argument("a reading of residue lies from 0 to 100 %");
    if (reading.on.year < 1 || reading.on.year > rotation.years || reading.on.day < 1 || reading.on.day > 365)
        throw std::invalid_argument("the reading was not taken on a day of the rotation");
    Calibration set;
    set.cover_before_pct = cover_on(rotation, climate, reading, 1.0);
    double low = std::log(0.05), high = std::log(20.0);
    for (int halving = 0; halving < 30; ++halving) {
        const double middle = 0.5 * (low + high);
        (cover_on(rotation, climate, reading, std::exp(middle)) < reading.cover_pct ? low : high) = middle;
    }
    set.factor = std::exp(0.5 * (low + high));
    set.adjustments = moved_by(set.factor);
    set.cover_after_pct = cover_on(rotation, climate, reading, set.factor);
    set.met = std::abs(set.cover_after_pct - reading.cover_pct) <= 1.0;
    if (!set.met)
        set.remarks.push_back({source::Weight::caution, "residue-reading-unmet",
                               "No mass of residue and no burial that is to be believed brings the calendar to the "
                               "cover that was read; a pass, a harvest or a date is missing or wrong."});
    else if (set.factor < 0.5 || set.factor > 2.0)
        set.remarks.push_back({source::Weight::caution, "residue-reading-far",
                               "The reading and the calendar lie far apart: residue and burial had to be moved by more "
                               "than twice. Look at the yield, the passes and the dates."});
    return set;
}

}  // namespace soilhold::rotation
