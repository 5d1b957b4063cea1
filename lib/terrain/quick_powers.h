/// Powers of floats, several at once and with the same bits on every machine: for maps, where a call of std::pow for
/// each cell would be most of the work.
///
/// log2 x = e + (2/ln 2)(t + t^3/3 + t^5/5 + ...), t = (f - 1)/(f + 1), x = 2^e f, f from sqrt(1/2) to sqrt 2;
/// 2^y = 2^n (1 + z + z^2/2 + ...), z = (y - n) ln 2, n the whole number next to y. Both series are plain Taylor
/// series, long enough for a float. Plain arithmetic without branches: compilers work four or more at a time.
/// Error: log2 within 1e-7 absolute plus half a step of the result; 2^y within 1.5e-7 of itself.
/// @source  any table of series
#pragma once

#include <bit>
#include <cstdint>

namespace soilhold::terrain {

/// @param x  above 0 and a normal float; other values give a finite number without a meaning
inline float quick_log2(float x) {
    const auto bits = std::bit_cast<std::uint32_t>(x);
    // The exponent steps at sqrt(1/2), so that f lies about 1: 0x3f3504f3 is sqrt(1/2).
    const std::int32_t exponent = static_cast<std::int32_t>(bits - 0x3f3504f3U) >> 23;
    const auto f = std::bit_cast<float>(bits - (static_cast<std::uint32_t>(exponent) << 23));
    const float t = (f - 1.0F) / (f + 1.0F), w = t * t;
    const float series = 1.0F + w * (1.0F / 3 + w * (1.0F / 5 + w * (1.0F / 7 + w * (1.0F / 9))));
    return static_cast<float>(exponent) + 2.88539008F * t * series;
}

/// @param y  -126 to 127
inline float quick_exp2(float y) {
    // Adding and taking away 1.5 * 2^23 rounds to the next whole number.
    const float shifted = y + 12582912.0F;
    const float whole = shifted - 12582912.0F;
    const float z = (y - whole) * 0.693147181F;
    const float series =
        1.0F +
        z * (1.0F + z * (0.5F + z * (1.0F / 6 + z * (1.0F / 24 + z * (1.0F / 120 + z * (1.0F / 720 + z / 5040))))));
    const std::uint32_t n = std::bit_cast<std::uint32_t>(shifted) - std::bit_cast<std::uint32_t>(12582912.0F);
    return std::bit_cast<float>(std::bit_cast<std::uint32_t>(series) + (n << 23));
}

/// x^y. @param x  as of quick_log2 @param y  so that y log2 x lies in -126 to 127
inline float quick_power(float x, float y) { return quick_exp2(y * quick_log2(x)); }

}  // namespace soilhold::terrain
