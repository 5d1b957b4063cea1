#include "watershed/map_spread.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace soilhold::watershed {

namespace {

// Of a float >= 0 the leading bits grow with its value: sign and exponent 9, then 11 of the fraction. As a whole number
// it lies below infinity; what is negative or no number does not. Bins go from 2^-32 to 2^32: what lies beyond, counted
// in the first and the last, is no slope, LS or loss.
constexpr int dropped = 12;
constexpr std::uint32_t infinite = 0x7f800000U;
constexpr std::int32_t first = (127 - 32) << (23 - dropped), last = ((127 + 32) << (23 - dropped)) - 1;
constexpr std::size_t bins = static_cast<std::size_t>(last - first) + 2;  // the last for what does not count

std::int32_t bin_of(std::uint32_t bits) {
    return std::clamp(static_cast<std::int32_t>(bits >> dropped), first, last) - first;
}

}  // namespace

Tally::Tally() : counts_(bins, 0) {}

double Tally::add(const float* values, std::int64_t count) {
    constexpr std::size_t none = bins - 1;
    double sums[4] = {0, 0, 0, 0};  // four at a time
    for (std::int64_t i = 0; i < count; ++i) {
        const auto bits = std::bit_cast<std::uint32_t>(values[i] + 0.0F);  // -0 is 0
        const bool counts = bits < infinite;
        ++counts_[counts ? static_cast<std::size_t>(bin_of(bits)) : none];
        sums[i % 4] += counts ? static_cast<double>(values[i]) : 0.0;
    }
    return (sums[0] + sums[1]) + (sums[2] + sums[3]);
}

void Tally::join(const Tally& other) {
    for (std::size_t i = 0; i < bins; ++i) counts_[i] += other.counts_[i];
}

Spread Tally::spread(double sum) const {
    Spread spread;
    for (std::size_t i = 0; i + 1 < bins; ++i) spread.cells += counts_[i];
    if (spread.cells == 0) return spread;
    spread.mean = sum / static_cast<double>(spread.cells);
    const auto quantile = [&](double share) {
        const auto wanted = static_cast<std::int64_t>(std::ceil(share * static_cast<double>(spread.cells)));
        std::int64_t below = 0;
        std::size_t bin = 0;
        while (bin + 2 < bins && below + counts_[bin] < wanted) below += counts_[bin++];
        const auto low = (static_cast<std::uint32_t>(first) + static_cast<std::uint32_t>(bin)) << dropped;
        return bin == 0 ? 0.0 : static_cast<double>(std::bit_cast<float>(low + (1U << (dropped - 1))));
    };
    spread.tenth = quantile(0.1);
    spread.middle = quantile(0.5);
    spread.nine_tenth = quantile(0.9);
    return spread;
}

}  // namespace soilhold::watershed
