#include "spread/interval.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::spread {

double quantile(std::vector<double>& draws, double p) {
    if (draws.empty()) throw std::invalid_argument("quantile of no draws");
    const double place = p * static_cast<double>(draws.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(place));
    const auto at = draws.begin() + static_cast<std::ptrdiff_t>(below);
    std::nth_element(draws.begin(), at, draws.end());
    const double low = *at;
    if (below + 1 >= draws.size()) return low;
    const double high = *std::min_element(at + 1, draws.end());
    return low + (place - static_cast<double>(below)) * (high - low);
}

Interval interval_of(double central, std::vector<double> draws) {
    const double low = quantile(draws, 0.10);
    const double high = quantile(draws, 0.90);
    return {central, std::min(low, central), std::max(high, central)};
}

}  // namespace soilhold::spread
