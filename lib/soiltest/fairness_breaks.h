/// The ways in which two fields' tests were not taken alike: what fairness.h weighs.
///
/// A hard break alone makes a pair not comparable; a soft one leaves pictures and words. What went unrecorded is
/// gathered and counts as one soft break, however long the list.
/// @source practice and assumptions, row by row in data/reference/fairness-rules.csv
#pragma once

#include <string>
#include <vector>

#include "soiltest/fairness.h"

namespace soilhold::soiltest {

struct Breaks {
    std::vector<Reason> reasons;
    std::vector<std::string> not_recorded;  ///< "drying time", "water": in plain words
    void hard(std::string code, std::string text, std::string redo);
    void soft(std::string code, std::string text, std::string redo);
};

/// Soil and slope. With tests to compare, a soil that nobody named counts as unrecorded.
void judge_ground(const Site& first, const Site& second, bool tested, Breaks& breaks);

/// Sampling, handling and counts of clods. At least one record holds a test.
void judge_tests(const Record& first, const Record& second, Breaks& breaks);

}  // namespace soilhold::soiltest
