/// Made ground for tests and benchmarks: rough hills with pits, level benches and holes, from whole-number hashes,
/// so that every machine makes the same one. No place on earth.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "terrain/grid.h"

namespace soilhold::terrain {

/// A grid from rows written out, for grids a reader checks by eye. -9 stands for nodata.
inline Grid<float> ground_of(const std::vector<std::vector<float>>& rows, double cell_m = 1) {
    Grid<float> grid({static_cast<std::int64_t>(rows[0].size()), static_cast<std::int64_t>(rows.size()), cell_m});
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (std::size_t c = 0; c < rows[r].size(); ++c)
            grid(static_cast<std::int64_t>(r), static_cast<std::int64_t>(c)) = rows[r][c] == -9 ? no_value : rows[r][c];
    return grid;
}

/// What the rough ground is made of.
struct Roughness {
    double tilt = 0;        ///< fall of the whole towards north, m a cell
    double noise_m = 0.06;  ///< survey noise: single-cell pits
    bool benches = true;    ///< level benches 12 m apart, as lakes and terraces leave them
    bool holes = true;      ///< nodata: holes, and single cells
};

inline std::uint32_t mixed(std::uint32_t x) {
    x = (x ^ (x >> 16)) * 0x7feb352dU;
    x = (x ^ (x >> 15)) * 0x846ca68bU;
    return x ^ (x >> 16);
}

inline double chance(std::int64_t row, std::int64_t column, std::uint32_t seed) {
    const auto r = static_cast<std::uint32_t>(row), c = static_cast<std::uint32_t>(column);
    return mixed(mixed(c * 0x9e3779b1U + seed) ^ (r * 0x85ebca6bU)) / 4294967296.0;
}

/// Smooth noise between -1 and 1 with a given wavelength in cells: values on a lattice, smoothly joined.
inline double waves(double row, double column, double wavelength, std::uint32_t seed) {
    const double y = row / wavelength, x = column / wavelength;
    const auto iy = static_cast<std::int64_t>(std::floor(y)), ix = static_cast<std::int64_t>(std::floor(x));
    const auto ease = [](double t) { return t * t * (3 - 2 * t); };
    const double v = ease(y - std::floor(y)), u = ease(x - std::floor(x));
    const double north = chance(iy, ix, seed) * (1 - u) + chance(iy, ix + 1, seed) * u;
    const double south = chance(iy + 1, ix, seed) * (1 - u) + chance(iy + 1, ix + 1, seed) * u;
    return 2 * (north * (1 - v) + south * v) - 1;
}

inline Grid<float> rough_ground(std::int64_t rows, std::int64_t columns, std::uint32_t seed,
                                const Roughness& roughness = {}) {
    Grid<float> grid({columns, rows, 5});
    for (std::int64_t r = 0; r < rows; ++r)
        for (std::int64_t c = 0; c < columns; ++c) {
            double z = 300 + roughness.tilt * static_cast<double>(r), height = 100;
            const auto y = static_cast<double>(r), x = static_cast<double>(c);
            for (double length = 800; length >= 2; length /= 2, height *= 0.53)
                z += height * waves(y, x, length, seed + static_cast<std::uint32_t>(length));
            z += roughness.noise_m * (chance(r, c, seed + 77) - 0.5);
            if (roughness.benches && waves(y, x, 300, seed + 501) > 0.5) z = std::floor(z / 12) * 12;
            const bool hole = waves(y, x, 180, seed + 900) > 0.8 || chance(r, c, seed + 13) < 1e-6;
            grid(r, c) = roughness.holes && hole ? no_value : static_cast<float>(std::round(z * 100) / 100);
        }
    return grid;
}

/// A small random grid that makes trouble: few different heights (so pits, flats and ties everywhere) and holes.
inline Grid<float> troubled_ground(std::mt19937& random, int longest) {
    const auto up_to = [&](int most) { return std::uniform_int_distribution<int>(1, most)(random); };
    Grid<float> grid({up_to(longest), up_to(longest), 2});
    const int heights = up_to(12), holes_of_64 = up_to(8) - 1;
    for (float& z : grid.values())
        z = up_to(64) <= holes_of_64 ? no_value : static_cast<float>(up_to(heights)) * 0.37F - 1.1F;
    return grid;
}

}  // namespace soilhold::terrain
