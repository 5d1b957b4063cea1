/// Whether two fields' tests may be set side by side, and what to do over when they may not.
///
/// Fair: the soils were the same and were handled alike, so a difference is the farming. Show only: one or two soft
/// breaks; pictures and words but no difference statistic. Not comparable: no comparison is drawn.
/// @source the rules are this project's proposal (facts: same soil, both air-dry, soaked together are common practice);
///         thresholds in data/reference/fairness-rules.csv
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "soiltest/record.h"

namespace soilhold::soiltest {

/// The ground a test came from, as far as fairness needs it.
struct Site {
    std::string map_unit;
    std::string texture_class;             ///< "silt loam"
    std::optional<double> erodibility_us;  ///< K in US units
    std::optional<double> gradient;        ///< rise over run
};

enum class Grade { fair, show_only, not_comparable };

/// "fair", "show only", "not comparable".
std::string words_for(Grade grade);

struct Reason {
    std::string code;   ///< "drying-differs"
    std::string text;   ///< what differs, with both values
    std::string redo;   ///< what to do next time; empty where nothing can be done
    bool hard = false;  ///< alone makes the pair not comparable
};

struct Fairness {
    Grade grade = Grade::fair;
    std::vector<Reason> reasons;  ///< hard ones first; empty when nothing is wrong
};

/// Grades a pair. With no tests in either record only the ground is judged.
Fairness fairness(const Record& first, const Site& first_site, const Record& second, const Site& second_site);

}  // namespace soilhold::soiltest
