/// Storms of a long rain record: where one ends, its energy, its I30 and EI30, and whether it counts.
///
/// Rain comes as intervals over which it fell evenly: the clock steps of a logger, the time a bucket took to fill, or
/// the pieces of a chart. A storm ends where the next six hours bring less than 1.27 mm (0.05 in). It counts with 12.7
/// mm (0.5 in) or more, or when 6.35 mm (0.25 in) fell within 15 minutes; 12.7 mm within 15 minutes is an often
/// repeated error. The little rain within such a break stays with the storm before it. EI30 = E x I30, I30 twice the
/// largest depth of any 30 minutes. Fixed hourly intervals flatten the bursts: gauge_record.h corrects for it.
/// @source AH 537 (1978) p. 5-6 and AH 703 (1997) ch. 2 (from memory). Handbook 537 held I30 at 63.5 mm/h for the maps
/// of
///         the eastern United States (from memory); no limit is set here unless asked for.
#pragma once

#include <vector>

namespace soilhold::factors {

/// Minutes count from 1970-01-01 00:00 in the gauge's own standard time, the whole year through.
struct RainInterval {
    double start_min = 0.0;
    double end_min = 0.0;   ///< > start_min
    double depth_mm = 0.0;  ///< >= 0
};

/// In order of time, none overlapping.
using Rain = std::vector<RainInterval>;

struct Storm {
    double start_min = 0.0;
    double end_min = 0.0;
    double depth_mm = 0.0;
    double largest_15_min_mm = 0.0;
    double I30_mm_per_h = 0.0;
    double energy_537 = 0.0;                                                         ///< MJ/ha
    double energy_brown_foster = 0.0;                                                ///< MJ/ha
    double EI30_537() const { return energy_537 * I30_mm_per_h; }                    ///< MJ mm/(ha h)
    double EI30_brown_foster() const { return energy_brown_foster * I30_mm_per_h; }  ///< MJ mm/(ha h)
};

struct StormRule {
    double break_hours = 6.0;
    double break_depth_mm = 1.27;
    double least_depth_mm = 12.7;
    double least_15_min_mm = 6.35;
    double I30_limit_mm_per_h = 1e300;  ///< 63.5 for a value that goes with Handbook 537's eastern maps
};

/// The largest depth that fell in any window of this length, mm.
/// @throws std::invalid_argument when intervals overlap, run backwards or hold less than nothing
double largest_depth_mm(const Rain& rain, double window_min);

/// The rain cut into storms; all rain belongs to one, so that depths add up. Intervals without rain are dropped.
/// @throws std::invalid_argument as above
std::vector<Rain> cut_into_storms(const Rain& rain, const StormRule& rule = {});

/// @param rain  of one storm, at least one interval. @throws std::invalid_argument as above, or when empty
Storm storm_of(const Rain& rain, const StormRule& rule = {});

/// Whether the handbook counts it.
bool counts(const Storm& storm, const StormRule& rule = {});

}  // namespace soilhold::factors
