#include "soiltest/fairness.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "soiltest/fairness_breaks.h"
#include "soiltest/fairness_rules.h"

namespace soilhold::soiltest {

std::string words_for(Grade grade) {
    switch (grade) {
        case Grade::fair:
            return "fair";
        case Grade::show_only:
            return "show only";
        case Grade::not_comparable:
            return "not comparable";
    }
    return "not comparable";
}

Fairness fairness(const Record& first, const Site& first_site, const Record& second, const Site& second_site) {
    const bool tested = !first.empty() || !second.empty();
    Breaks breaks;
    judge_ground(first_site, second_site, tested, breaks);
    if (tested) judge_tests(first, second, breaks);

    if (!breaks.not_recorded.empty()) {
        std::string list;
        for (std::size_t i = 0; i < breaks.not_recorded.size(); ++i)
            list += (i == 0 ? "" : i + 1 == breaks.not_recorded.size() ? " and " : ", ") + breaks.not_recorded[i];
        breaks.soft("not-recorded", fmt::format("Not recorded for one field or both: {}.", list),
                    "Write these down for both fields, so that nothing has to be assumed.");
    }
    const double soft = static_cast<double>(
        std::count_if(breaks.reasons.begin(), breaks.reasons.end(), [](const Reason& reason) { return !reason.hard; }));
    if (soft > fairness_rules().soft_breaks_allowed)
        breaks.hard(
            "too-many-differences",
            fmt::format("{:.0f} smaller differences together are too many to put the difference down to farming.",
                        soft),
            "Sample both fields again on one day and handle them alike.");

    Fairness result;
    result.reasons = std::move(breaks.reasons);
    std::stable_partition(result.reasons.begin(), result.reasons.end(),
                          [](const Reason& reason) { return reason.hard; });
    if (!result.reasons.empty()) result.grade = result.reasons.front().hard ? Grade::not_comparable : Grade::show_only;
    return result;
}

}  // namespace soilhold::soiltest
