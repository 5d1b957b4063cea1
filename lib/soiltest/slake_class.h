/// The slake class of one clod, 0 to 6, from what was seen under water.
///
/// Classes 1 to 3 tell speed (when half of the clod was gone during the five minutes), 4 to 6 tell what was left after
/// the five dips that follow. The scale is an order, not a measure: class 5 alone spans 25 to 75 %. Keep the seconds
/// and the percentage too. A limit belongs to the class it opens (25 % left is class 5), except that a clod half gone
/// at exactly 5, 30 or 300 s counts as gone within that time.
/// @source Herrick et al. 2001, Catena 44:27-35, rules as read in a reprint; data/reference/slake-classes.csv
#pragma once

#include <optional>
#include <string>

namespace soilhold::soiltest {

/// @param seconds_to_half_loss  s from immersion until half was gone, >= 0; none when more than half stayed 300 s
/// @param left_pct              % left after five dips, 0..100; needed when half did not go within 300 s
/// @throws std::invalid_argument outside these ranges, or when neither decides the class
int slake_class_from(std::optional<double> seconds_to_half_loss, std::optional<double> left_pct);

/// The class in plain words: "25 to 75 % left after five dips". @throws std::invalid_argument outside 0..6
std::string words_for_slake_class(int slake_class);

}  // namespace soilhold::soiltest
