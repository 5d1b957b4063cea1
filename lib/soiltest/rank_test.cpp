#include "soiltest/rank_test.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::soiltest {

namespace {

/// Arrangements of n1 and n2 distinct values in which U takes each value 0 .. n1 n2.
/// ways(n1, n2, u) = ways(n1, n2 - 1, u - n1) + ways(n1 - 1, n2, u): the largest value of all is in one group or the
/// other.
std::vector<double> ways_by_u(std::size_t n1, std::size_t n2) {
    std::vector<std::vector<std::vector<double>>> ways(n1 + 1, std::vector<std::vector<double>>(n2 + 1));
    for (std::size_t i = 0; i <= n1; ++i)
        for (std::size_t j = 0; j <= n2; ++j) {
            std::vector<double>& here = ways[i][j];
            here.assign(i * j + 1, 0.0);
            if (i == 0 || j == 0) {
                here[0] = 1.0;
                continue;
            }
            for (std::size_t u = 0; u < ways[i - 1][j].size(); ++u) here[u] += ways[i - 1][j][u];
            for (std::size_t u = 0; u < ways[i][j - 1].size(); ++u) here[u + i] += ways[i][j - 1][u];
        }
    return ways[n1][n2];
}

double exact_p(double u, std::size_t n1, std::size_t n2) {
    const std::vector<double> ways = ways_by_u(n1, n2);
    const double smaller = std::min(u, static_cast<double>(n1 * n2) - u);
    double all = 0.0, as_extreme = 0.0;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        all += ways[i];
        if (static_cast<double>(i) <= smaller) as_extreme += ways[i];
    }
    return std::min(1.0, 2.0 * as_extreme / all);
}

}  // namespace

RankTest rank_test(const std::vector<double>& first, const std::vector<double>& second) {
    if (first.empty() || second.empty()) throw std::invalid_argument("a rank test needs values on both sides");
    RankTest result;
    for (const double a : first)
        for (const double b : second) result.u_second += b > a ? 1.0 : (b == a ? 0.5 : 0.0);
    const double n1 = static_cast<double>(first.size()), n2 = static_cast<double>(second.size()), n = n1 + n2;
    result.chance_higher = result.u_second / (n1 * n2);

    std::vector<double> all = first;
    all.insert(all.end(), second.begin(), second.end());
    std::sort(all.begin(), all.end());
    double tie_sum = 0.0;
    for (std::size_t i = 0; i < all.size();) {
        std::size_t next = i;
        while (next < all.size() && all[next] == all[i]) ++next;
        const double tied = static_cast<double>(next - i);
        tie_sum += tied * tied * tied - tied;
        i = next;
    }
    if (tie_sum == 0.0 && first.size() <= 10 && second.size() <= 10) {
        result.exact = true;
        result.p_value = exact_p(result.u_second, first.size(), second.size());
        return result;
    }
    const double variance = n1 * n2 / 12.0 * ((n + 1.0) - tie_sum / (n * (n - 1.0)));
    if (variance <= 0.0) return result;  // every value is the same: nothing speaks for a difference
    const double z = std::max(0.0, std::abs(result.u_second - n1 * n2 / 2.0) - 0.5) / std::sqrt(variance);
    result.p_value = std::min(1.0, std::erfc(z / std::sqrt(2.0)));
    return result;
}

}  // namespace soilhold::soiltest
