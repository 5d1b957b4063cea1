/// The rank test of Mann and Whitney: whether values of one group tend to be above those of another.
///
/// U counts the pairs in which the second group's value is higher, ties half. Without ties and with at most ten values
/// a side the p-value counts every arrangement of the ranks (the recurrence of the paper); otherwise it is the normal
/// approximation with continuity and tie corrections.
/// @source Mann & Whitney 1947, Ann. Math. Stat. 18:50-60 (from memory)
#pragma once

#include <vector>

namespace soilhold::soiltest {

struct RankTest {
    double u_second = 0.0;       ///< 0 .. n1 n2
    double chance_higher = 0.5;  ///< u_second / (n1 n2)
    double p_value = 1.0;        ///< two-sided
    bool exact = false;
};

/// @throws std::invalid_argument when a group is empty
RankTest rank_test(const std::vector<double>& first, const std::vector<double>& second);

}  // namespace soilhold::soiltest
