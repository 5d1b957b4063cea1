/// How many spots a field needs so that a given difference between two fields would be seen.
///
/// n = 2 (z_a + z_b)^2 sd^2 / d^2 for each field, rounded up, at least 3; z_a = 1.96 (5 %, two-sided), z_b = 0.8416
/// (found four times in five). Spots are the replicates: more clods from one hole do not count.
/// @source the usual two-sample formula under a normal law (from memory); the floor of 3 is our assumption
#pragma once

namespace soilhold::soiltest {

/// @param sd_classes          standard deviation between spots, slake classes, > 0 (0.7 to 1.5 within a field)
/// @param difference_classes  difference worth finding, slake classes, > 0
/// @return                    spots in each field
/// @throws std::invalid_argument outside these ranges
int spots_needed(double sd_classes, double difference_classes);

}  // namespace soilhold::soiltest
