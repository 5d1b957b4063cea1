#include "terrain/horn_slope.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "terrain/made_ground.h"
#include "terrain/turned.h"

namespace {

using namespace soilhold::terrain;

constexpr double pi = std::numbers::pi;

template <class Height>
Grid<float> surface(std::int64_t rows, std::int64_t columns, double cell_m, const Height& height) {
    Grid<float> grid({columns, rows, cell_m});
    for (std::int64_t r = 0; r < rows; ++r)
        for (std::int64_t c = 0; c < columns; ++c)
            grid(r, c) = static_cast<float>(height(static_cast<double>(c) * cell_m, static_cast<double>(r) * cell_m));
    return grid;
}

TEST(HornSlope, ByHandOnNineCells) {
    // p = [(3 + 2*6 + 9) - (1 + 2*4 + 7)] / 80 = 8/80, q = [(7 + 2*8 + 9) - (1 + 2*2 + 3)] / 80 = 24/80.
    const auto ground = ground_of({{1, 2, 3}, {4, 5, 6}, {7, 8, 9}}, 10);
    const auto slopes = horn_slopes(ground);
    EXPECT_FLOAT_EQ(slopes.gradient(1, 1), static_cast<float>(std::sqrt(0.01 + 0.09)));
    EXPECT_FLOAT_EQ(slopes.contour(1, 1), static_cast<float>(0.4 / std::sqrt(0.1)));
    // The ground falls towards north, a little to the west: atan(1/3) short of the full circle.
    EXPECT_NEAR(horn_aspect(ground)(1, 1), 2 * pi - std::atan(1.0 / 3), 1e-6);
}

TEST(HornSlope, AspectRunsClockwiseFromNorth) {
    EXPECT_NEAR(aspect_of({0, 1}), 0, 1e-12);  // rises towards south: faces north
    EXPECT_NEAR(aspect_of({-1, 0}), pi / 2, 1e-12);
    EXPECT_NEAR(aspect_of({0, -1}), pi, 1e-12);
    EXPECT_NEAR(aspect_of({1, 0}), 3 * pi / 2, 1e-12);
    EXPECT_NEAR(aspect_of({-1, -1}), 3 * pi / 4, 1e-12);
    EXPECT_TRUE(std::isnan(aspect_of({0, 0})));
}

TEST(HornSlope, AnyPlaneIsExactAtItsBordersAndBesideHoles) {
    std::mt19937 random(3);
    for (int trial = 0; trial < 200; ++trial) {
        const double p = (static_cast<int>(random() % 65) - 32) / 64.0,
                     q = (static_cast<int>(random() % 65) - 32) / 64.0;
        auto ground = surface(7, 9, 2, [&](double x, double y) { return 500 + p * x + q * y; });
        ground(3, 4) = no_value;
        ground(2, 4) = INFINITY;
        const auto slopes = horn_slopes(ground, {3, 1});
        const double gradient = std::hypot(p, q);
        for (std::int64_t r = 0; r < 7; ++r)
            for (std::int64_t c = 0; c < 9; ++c) {
                if (!std::isfinite(ground(r, c))) {
                    EXPECT_TRUE(std::isnan(slopes.gradient(r, c)) && std::isnan(slopes.contour(r, c)));
                    continue;
                }
                ASSERT_NEAR(slopes.gradient(r, c), gradient, 1e-7);
                const double contour = gradient > 0 ? (std::abs(p) + std::abs(q)) / gradient : 1;
                ASSERT_NEAR(slopes.contour(r, c), contour, 2e-7);
            }
    }
}

TEST(HornSlope, WithAllNeighboursTheFitIsHornsAndAtABorderItsHalf) {
    std::mt19937 random(4);
    for (int trial = 0; trial < 200; ++trial) {
        Neighbours cell;
        cell.here = static_cast<float>(random() % 1000);
        for (float& z : cell.around) z = static_cast<float>(random() % 1000);
        const auto& [e, south, w, n, se, sw, nw, ne] = cell.around;
        const Lean lean = lean_of(cell, 5);
        EXPECT_NEAR(lean.east, ((ne + 2 * e + se) - (nw + 2 * w + sw)) / 40, 1e-4);
        EXPECT_NEAR(lean.south, ((se + 2 * south + sw) - (ne + 2 * n + nw)) / 40, 1e-4);
        // A west border: the eastern side against the cell's own height, with the same weights.
        Neighbours border = cell;
        for (const std::size_t k : {2, 5, 6}) border.around[k] = no_value;
        EXPECT_NEAR(lean_of(border, 5).east, (ne + 2 * e + se - 4 * cell.here) / 20, 1e-4);
    }
}

TEST(HornSlope, NeighboursInOneLineGiveTheSlopeAlongIt) {
    const auto row = horn_slopes(ground_of({{8, 6, 5}}, 2));
    EXPECT_FLOAT_EQ(row.gradient(0, 0), 1.0F);
    EXPECT_FLOAT_EQ(row.gradient(0, 1), 0.75F);
    EXPECT_FLOAT_EQ(row.gradient(0, 2), 0.5F);
    const auto across = horn_slopes(ground_of({{3, -9}, {-9, 1}}));
    EXPECT_FLOAT_EQ(across.gradient(0, 0), static_cast<float>(2 / std::numbers::sqrt2));
    EXPECT_FLOAT_EQ(across.contour(0, 0), static_cast<float>(std::numbers::sqrt2));
    EXPECT_EQ(horn_slopes(ground_of({{4}})).gradient(0, 0), 0);
}

TEST(HornSlope, AConeHasItsGradientAndFacesOutward) {
    const auto cone = surface(101, 101, 1, [](double x, double y) { return 90 - 0.25 * std::hypot(x - 50, y - 50); });
    const auto slopes = horn_slopes(cone);
    const auto aspect = horn_aspect(cone);
    EXPECT_EQ(slopes.gradient(50, 50), 0);  // the tip, by symmetry
    for (std::int64_t r = 0; r < 101; ++r)
        for (std::int64_t c = 0; c < 101; ++c) {
            const auto x = static_cast<double>(c - 50), y = static_cast<double>(r - 50);
            const double away = std::hypot(x, y);
            if (away < 20) continue;
            const bool inside = r > 0 && c > 0 && r < 100 && c < 100;
            EXPECT_NEAR(slopes.gradient(r, c), 0.25, inside ? 1e-3 : 5e-3);
            double outward = std::atan2(x, -y);
            if (outward < 0) outward += 2 * pi;
            EXPECT_NEAR(std::abs(std::remainder(aspect(r, c) - outward, 2 * pi)), 0, inside ? 2e-3 : 2e-2);
        }
}

TEST(HornSlope, AParabolaIsExactInside) {
    // Central differences are exact for second-degree ground: a saddle x y/64 has the gradient |(y, x)|/64.
    const auto saddle = surface(33, 33, 1, [](double x, double y) { return (x - 16) * (y - 16) / 64; });
    const auto slopes = horn_slopes(saddle);
    for (std::int64_t r = 1; r < 32; ++r)
        for (std::int64_t c = 1; c < 32; ++c)
            EXPECT_NEAR(slopes.gradient(r, c),
                        std::hypot(static_cast<double>(c - 16), static_cast<double>(r - 16)) / 64, 1e-7);
}

TEST(HornSlope, AHemisphereHasTheGradientOfItsCircle) {
    // z = sqrt(R^2 - d^2): gradient d / z.
    const auto dome = surface(121, 121, 1, [](double x, double y) {
        return std::sqrt(std::max(0.0, 200.0 * 200 - (x - 60) * (x - 60) - (y - 60) * (y - 60)));
    });
    const auto slopes = horn_slopes(dome);
    for (std::int64_t r = 1; r < 120; ++r)
        for (std::int64_t c = 1; c < 120; ++c) {
            const double away = std::hypot(static_cast<double>(c - 60), static_cast<double>(r - 60));
            EXPECT_NEAR(slopes.gradient(r, c), away / std::sqrt(200.0 * 200 - away * away), 1e-4);
        }
}

TEST(HornSlope, ATurnedGridHasTheTurnedSlopesToTheBit) {
    std::mt19937 random(8);
    for (int trial = 0; trial < 50; ++trial) {
        const auto ground = troubled_ground(random, 20);
        const auto slopes = horn_slopes(ground);
        for (const auto turn : {transposed<float>, quarter_turned<float>}) {
            const auto turned = horn_slopes(turn(ground));
            EXPECT_TRUE(same_bits(turned.gradient, turn(slopes.gradient)));
            EXPECT_TRUE(same_bits(turned.contour, turn(slopes.contour)));
        }
    }
}

TEST(HornSlope, TilesAndThreadsChangeNothing) {
    const auto ground = rough_ground(150, 170, 5);
    const auto whole = horn_slopes(ground, {1000, 1});
    const auto aspect = horn_aspect(ground, {1000, 1});
    for (const std::int64_t side : {1, 7, 64})
        for (const int threads : {1, 2}) {
            const auto tiled = horn_slopes(ground, {side, threads});
            EXPECT_TRUE(same_bits(tiled.gradient, whole.gradient));
            EXPECT_TRUE(same_bits(tiled.contour, whole.contour));
            EXPECT_TRUE(same_bits(horn_aspect(ground, {side, threads}), aspect));
        }
}

TEST(HornSlope, ARowWithoutContoursHasTheSameGradients) {
    std::mt19937 random(9);
    for (int trial = 0; trial < 50; ++trial) {
        const auto ground = troubled_ground(random, 20);
        if (ground.rows() < 3 || ground.columns() < 3) continue;
        const auto inner = static_cast<std::size_t>(ground.columns() - 2);
        std::vector<float> with(inner), without(inner), contour(inner);
        for (std::int64_t r = 1; r + 1 < ground.rows(); ++r) {
            const auto row = [&](float* gradient, float* across) {
                horn_row(&ground(r - 1, 1), &ground(r, 1), &ground(r + 1, 1), ground.columns() - 2, 5, gradient,
                         across);
            };
            row(with.data(), contour.data());
            row(without.data(), nullptr);
            for (std::size_t c = 0; c < inner; ++c)
                EXPECT_EQ(std::bit_cast<std::uint32_t>(with[c]), std::bit_cast<std::uint32_t>(without[c]));
        }
    }
}

}  // namespace
