/// The sentences that lead every form of the result, in plain words and two figures of meaning.
#pragma once

#include <string>

#include "loss/estimate.h"
#include "spread/interval.h"
#include "units/unit.h"

namespace soilhold::report {

/// A number of times of at least 1, in words: 1.0 "about the same", 1.5 "about one and a half times", 4.2 "about four
/// times", 23 "about 23 times".
std::string times_in_words(double times);

/// "Soil leaves Wether Fold about four times as fast as Lower Reach (likely 2.8 to 5.6 times)." Whichever loses more
/// comes first; where the likely range holds 1, the sentence says that the order is not sure.
/// @param ratio  loss of `to` over loss of `from`, > 0
std::string ratio_sentence(const spread::Interval& ratio, const std::string& from, const std::string& to);

/// "Wether Fold loses about 16 t/ac in an average year (likely 12 to 22), 4.1 times the planners' mark T for its soil."
std::string loss_sentence(const loss::FieldEstimate& estimate, units::System system);

/// A loss per area in two figures with its unit; under 1 t/ac (or 1 t/ha) "less than 1 t/ac".
std::string loss_in_words(double loss, units::System system);

/// A total per year: "620 tons (likely 460 to 850)"; US tons are short tons of 2,000 lb.
std::string total_in_words(const spread::Interval& total_t, units::System system);

/// "t/ac" or "t/ha": a yearly loss where the sentence says the year.
std::string loss_unit(units::System system);

}  // namespace soilhold::report
