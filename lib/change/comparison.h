/// Two or more fields side by side: ratios where a comparison is fair, and none where it is not.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loss/estimate.h"
#include "soiltest/fairness.h"
#include "soiltest/summary.h"

namespace soilhold::change {

struct Pair {
    std::size_t from = 0, to = 0;  ///< indices into Comparison::fields
    soiltest::Fairness fairness;
    std::optional<spread::Interval> ratio;  ///< to over from; only of a fair pair
    std::optional<spread::Interval> saved;  ///< from minus to, t/(ha yr); only of a fair pair
    std::optional<double> ratio_without_tests;
    std::optional<soiltest::Difference> tests;           ///< only of a fair pair with slake tests
    std::optional<structure::StructureRatio> structure;  ///< only of a fair pair with tests
    std::vector<std::string> shared;                     ///< inputs stated alike, whose errors cancel: "R", "K", ...
    source::Steps steps;                                 ///< of the ratio and what is saved; only of a fair pair
    std::string agreement;  ///< whether tests and estimate point the same way, in a sentence; "" without tests
};

struct Comparison {
    std::vector<loss::FieldEstimate> fields;
    std::vector<Pair> pairs;  ///< each field against each later one, in the order given
    loss::DrawSettings draws;
};

/// Estimates each field on shared points and compares each with each later one.
Comparison compare(const std::vector<loss::Field>& fields, const loss::DrawSettings& settings);

/// One field, or many without comparing.
Comparison estimate(const std::vector<loss::Field>& fields, const loss::DrawSettings& settings);

}  // namespace soilhold::change
