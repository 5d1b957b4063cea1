/// Chance from places: the same seed and place give the same number on every machine. Only sums and products of
/// doubles are used, no function of a library that differs from one machine to the next.
#pragma once

#include <cmath>
#include <cstdint>

namespace soilhold::made {

/// 0 up to, not including, 1; splitmix64.
inline double chance(std::uint64_t seed, std::int64_t a, std::int64_t b = 0, std::int64_t c = 0) {
    std::uint64_t x = seed;
    for (const std::int64_t part : {a, b, c}) {
        x += 0x9E3779B97F4A7C15U + static_cast<std::uint64_t>(part);
        x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9U;
        x = (x ^ (x >> 27)) * 0x94D049BB133111EBU;
        x ^= x >> 31;
    }
    return static_cast<double>(x >> 11) / 9007199254740992.0;
}

/// Smooth noise, -1 to 1, with bumps one unit wide.
inline double noise(std::uint64_t seed, double x, double y) {
    const double x0 = std::floor(x), y0 = std::floor(y);
    const auto c = static_cast<std::int64_t>(x0), r = static_cast<std::int64_t>(y0);
    const auto ease = [](double t) { return t * t * t * (t * (t * 6 - 15) + 10); };
    const double u = ease(x - x0), v = ease(y - y0);
    const double upper = chance(seed, c, r) * (1 - u) + chance(seed, c + 1, r) * u;
    const double lower = chance(seed, c, r + 1) * (1 - u) + chance(seed, c + 1, r + 1) * u;
    return 2 * (upper * (1 - v) + lower * v) - 1;
}

}  // namespace soilhold::made
