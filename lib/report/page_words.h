/// The sentences of the page for the kitchen table: short, in words a reader of grade 7 knows, units beside each
/// number.
#pragma once

#include <string>
#include <vector>

#include "change/comparison.h"
#include "units/unit.h"

namespace soilhold::report {

/// "12 to 22 t/ac" in two figures; below one both "less than 1 t/ac".
std::string range_in_words(const spread::Interval& loss, units::System system);

/// "16", "all" or "none" of the clods.
std::string held_in_words(const soiltest::SlakeSummary& slake);

/// The loss sentence of words.h; a field near or below T is said to be so, not to be at 0.6 times T.
std::string field_sentence(const loss::FieldEstimate& estimate, units::System system);

/// "An inch of soil goes in about 9 years (likely 6 to 12)." @return "" when next to nothing goes
std::string depth_sentence(const loss::FieldEstimate& estimate, units::System system);

/// Of a slope that bends: which part loses most. "" for an even slope.
std::string slope_part_sentence(const loss::FieldEstimate& estimate, units::System system);

/// What leaves the field where something catches soil, now and after a change. "" where nothing does.
std::string leaving_sentences(const loss::FieldEstimate& estimate, units::System system);

/// What an input of the doubt list is to someone who farms: "cover factor C" -> "how well plants and stalks cover the
/// soil".
std::string input_in_plain_words(const std::string& input);

/// What was seen of the tests of one field, clods first; "" without tests.
std::string tests_sentence(const loss::FieldEstimate& estimate);

/// "Without the soak tests the sum gives 14 t/ac." and whose rule it is that they count; "" when they don't.
std::string without_tests_sentence(const std::vector<const loss::FieldEstimate*>& estimates, units::System system);

/// The one thing to do next for this field: the change that keeps most soil, or else the input to measure again.
std::string next_step_sentence(const loss::FieldEstimate& estimate, units::System system);

/// What the figures can't say, the largest doubt first.
std::vector<std::string> unknowns(const std::vector<const loss::FieldEstimate*>& estimates, const change::Pair* pair);

/// Where each value comes from with its standing in words, like ones together:
/// "Your figure - rain: county rain sheet; soil, T: survey sheet. Read in the source - slope rule: AH 703 LS."
std::string sources_line(const std::vector<const loss::FieldEstimate*>& estimates);

}  // namespace soilhold::report
