#include "spread/independent.h"

#include <boost/math/special_functions/erf.hpp>
#include <numbers>

namespace soilhold::spread {

std::uint64_t split_mix(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15ULL;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31);
}

std::vector<double> independent_scores(std::uint64_t column, std::size_t draws, std::uint64_t seed) {
    std::vector<double> scores(draws);
    const std::uint64_t start = split_mix(split_mix(seed) + column);
    for (std::size_t i = 0; i < draws; ++i) {
        // 53 bits, the middle of the cell, so that 0 and 1 never come up.
        const double u = (static_cast<double>(split_mix(start + i * 0x9e3779b97f4a7c15ULL) >> 11) + 0.5) * 0x1p-53;
        scores[i] = std::numbers::sqrt2 * boost::math::erf_inv(2 * u - 1);
    }
    return scores;
}

}  // namespace soilhold::spread
