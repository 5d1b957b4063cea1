/// The common scale W [%]: soil stable above 0.25 mm after fast wetting of air-dry soil; every test is put on it.
///
/// Slake class c: W = 10 + 13 c (sd of the slope 3, scatter 10). Water-stable aggregates: W = WSA. Mean weight diameter
/// (fast wetting): straight lines between data/reference/mwd-knots.csv (sd 12). Loose soil: holds 75, partial 50,
/// slurry 25 (sd 20). Several tests are combined by inverse variance.
/// @source the crosswalks are our assumption: no published equation from a class to W was found
#pragma once

#include <vector>

#include "soiltest/summary.h"
#include "structure/knots.h"

namespace soilhold::structure {

/// W by mean weight diameter in mm: data/reference/mwd-knots.csv.
const Knots& diameter_knots();

/// W of one test, with the doubt of this field's own measurement.
struct Observation {
    double W = 0.0;   ///< %
    double sd = 0.0;  ///< %, > 0
};

/// @param mean_class  0..6
double W_from_class(double mean_class);

/// The mean class over spots. One spot alone takes the usual spread between spots for its doubt.
Observation from_slake(const soiltest::SlakeSummary& slake);
/// @param percent  % stable > 0.25 mm
Observation from_water_stable(const soiltest::MeanSummary& percent);
/// @param diameter_mm  mean weight diameter, mm, fast wetting; beyond the knots the last one holds
Observation from_mean_weight_diameter(const soiltest::MeanSummary& diameter_mm);
Observation from_slump(soiltest::SlumpVerdict verdict);

/// W of every test in the record; empty when nothing was measured.
std::vector<Observation> observations(const soiltest::Summary& tests);

/// Inverse-variance mean. @throws std::invalid_argument when there is nothing to combine
Observation combine(const std::vector<Observation>& tests);

}  // namespace soilhold::structure
