#include "terrain/multiple_flow.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "terrain/quick_powers.h"

namespace soilhold::terrain {
namespace {

// Falls over distance, in metres a cell width; 0 where nothing is lower.
std::array<float, 8> falls(const Neighbours& cell) {
    std::array<float, 8> fall{};
    for (std::size_t k = 0; k < 8; ++k) {
        const float down = cell.here - cell.around[k];
        // Infinite: a hole on one side or the other.
        if (down > 0 && down < std::numeric_limits<float>::infinity())
            fall[k] = k < 4 ? down : down * static_cast<float>(1 / std::numbers::sqrt2);
    }
    return fall;
}

FlowShares parts_of_one(const std::array<float, 8>& weights) {
    // In a double, so that the order of the ways does not show in the shares.
    double all = 0;
    for (const float w : weights) all += w;
    FlowShares shares;
    if (!(all > 0)) return shares;
    for (std::size_t k = 0; k < 8; ++k) shares.way[k] = static_cast<float>(weights[k] / all);
    return shares;
}

}  // namespace

FlowShares freeman_shares(const Neighbours& cell, double exponent) {
    if (!(exponent >= 0 && exponent <= 25)) throw std::invalid_argument("the exponent of the falls lies from 0 to 25");
    const auto fall = falls(cell);
    const float most = *std::max_element(fall.begin(), fall.end());
    std::array<float, 8> weights{};
    for (std::size_t k = 0; k < 8; ++k) {
        // As parts of the steepest, so that no power leaves the range of a float.
        const float part = fall[k] / most;
        if (!(part > 1e-30F)) continue;
        const float power = static_cast<float>(exponent) * quick_log2(part);
        if (power > -100) weights[k] = quick_exp2(power);
    }
    return parts_of_one(weights);
}

FlowShares quinn_shares(const Neighbours& cell) {
    auto weights = falls(cell);
    for (std::size_t k = 0; k < 8; ++k) weights[k] *= k < 4 ? 0.5F : 0.354F;
    return parts_of_one(weights);
}

}  // namespace soilhold::terrain
