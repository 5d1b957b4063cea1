#include "terrain/slope_length_grid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "factors/irregular_slope.h"
#include "factors/slope_length.h"
#include "factors/unit_area_slope.h"
#include "terrain/accumulation.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/horn_slope.h"
#include "terrain/made_ground.h"
#include "terrain/quick_powers.h"
#include "terrain/turned.h"

namespace {

using namespace soilhold;
using namespace soilhold::terrain;
using factors::RillRatio;

constexpr RillRatio all_ratios[] = {RillRatio::low, RillRatio::moderate, RillRatio::high, RillRatio::thawing};

// A plane that falls towards south by `gradient`; steps are whole 1/1024 m where gradient and cell are.
Grid<float> plane(std::int64_t rows, std::int64_t columns, double cell_m, double gradient) {
    Grid<float> grid({columns, rows, cell_m});
    for (std::int64_t r = 0; r < rows; ++r)
        for (std::int64_t c = 0; c < columns; ++c)
            grid(r, c) = static_cast<float>(512 - gradient * cell_m * static_cast<double>(r));
    return grid;
}

Grid<double> drained(const Grid<float>& ground, const Grid<std::uint8_t>* barriers = nullptr) {
    auto filled = ground;
    fill_depressions(filled);
    return accumulate(flow_directions(filled), {nullptr, barriers});
}

TEST(QuickPowers, HoldTheirBoundsOverTheirRange) {
    std::mt19937 random(1);
    std::uniform_real_distribution<double> exponents(-30, 30);
    double log_error = 0, exp_error = 0;
    for (int i = 0; i < 1000000; ++i) {
        const auto x = static_cast<float>(std::exp2(exponents(random)));
        const double log2 = std::log2(static_cast<double>(x));
        log_error = std::max(log_error, std::abs(quick_log2(x) - log2) - std::abs(log2) * 6e-8);
        const auto y = static_cast<float>(exponents(random));
        exp_error = std::max(exp_error, std::abs(quick_exp2(y) / std::exp2(static_cast<double>(y)) - 1));
    }
    EXPECT_LT(log_error, 1.2e-7);
    EXPECT_LT(exp_error, 1.5e-7);
    EXPECT_EQ(quick_log2(1), 0);
    EXPECT_EQ(quick_exp2(0), 1);
    EXPECT_EQ(quick_exp2(10), 1024);
}

TEST(SlopeLengthGrid, TheMeanOfLOverAPlaneIsThatOfTheSlope) {
    for (const double m : {0.0, 0.2, 0.37, 0.5, 0.73})
        for (const double cell : {1.0, 5.0, 30.0})
            for (const int cells : {1, 2, 7, 24, 200}) {
                double sum = 0;
                for (int j = 0; j < cells; ++j) sum += cell_length_factor(j * cell * cell, cell, m, 1);
                const double whole = factors::slope_length_factor(cells * cell, m);
                EXPECT_NEAR(sum / cells / whole, 1, 1e-9) << m << ' ' << cell << ' ' << cells;
            }
}

TEST(SlopeLengthGrid, EachCellOfAPlaneHasTheLSOfItsSegment) {
    for (const double gradient : {0.0078125, 0.0625, 0.125, 0.25, 0.5})
        for (const RillRatio ratio : all_ratios) {
            const auto ground = plane(24, 5, 4, gradient);
            const SlopeLengthRules rules{.rill_ratio = ratio};
            const auto LS = slope_factors({ground, drained(ground)}, rules);
            for (std::int64_t r = 0; r < 24; ++r)
                for (std::int64_t c = 0; c < 5; ++c) {
                    const double from = 4.0 * static_cast<double>(r);
                    const double segment = factors::segment_slope_factor_703(from, from + 4, gradient, ratio);
                    EXPECT_NEAR(LS(r, c) / segment, 1, 1e-6) << gradient << ' ' << r;
                }
        }
}

TEST(SlopeLengthGrid, TheMeanOverAPlaneIsTheHillslopesLS) {
    for (const double gradient : {0.03125, 0.0625, 0.125, 0.25})
        for (const RillRatio ratio : all_ratios)
            for (const std::int64_t rows : {5, 24, 60}) {
                const auto ground = plane(rows, 3, 2, gradient);
                const SlopeLengthRules rules{.rill_ratio = ratio};
                const auto LS = slope_factors({ground, drained(ground)}, rules);
                double sum = 0;
                for (const float v : LS.values()) sum += v;
                const double length_m = 2.0 * static_cast<double>(rows);
                const double slope =
                    factors::slope_factor(length_m, gradient, factors::SlopeMethod::handbook_703, ratio);
                EXPECT_NEAR(sum / static_cast<double>(3 * rows) / slope, 1, 1e-6) << gradient << ' ' << rows;
            }
}

TEST(SlopeLengthGrid, LIsThePapersButForTheUnitPlot) {
    // 22.13 m there, 72.6 ft here; the paper's form stands in factors/unit_area_slope.h on its own.
    for (const double aspect : {0.0, 0.3, std::numbers::pi / 4, 2.0})
        for (const double inflow : {0.0, 50.0, 3000.0}) {
            const double x = std::abs(std::sin(aspect)) + std::abs(std::cos(aspect));
            const double paper = factors::grid_cell_length_factor(inflow, 10, 0.5, aspect);
            EXPECT_NEAR(cell_length_factor(inflow, 10, 0.5, x) / paper, std::sqrt(22.13 / (72.6 * 0.3048)), 1e-12);
        }
}

TEST(SlopeLengthGrid, AMillionRandomCellsKeepToTheEquation) {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> uniform(0, 1);
    constexpr std::int64_t count = 250000;
    std::vector<float> gradient(count), contour(count), LS(count);
    std::vector<double> area(count);
    for (const RillRatio ratio : all_ratios) {
        const double cell = ratio == RillRatio::low ? 1 : ratio == RillRatio::moderate ? 5 : 10;
        const SlopeLengthRules rules{ratio, ratio == RillRatio::high ? most_slope_m : 122, 3e8};
        for (std::size_t i = 0; i < count; ++i) {
            gradient[i] = static_cast<float>(std::exp2(14 * uniform(random) - 13));
            contour[i] = static_cast<float>(1 + 0.41421356 * uniform(random));
            area[i] = uniform(random) < 0.3 ? 1 + 3 * uniform(random) : std::floor(std::exp2(28 * uniform(random)));
            if (uniform(random) < 0.01) gradient[i] = 0;
        }
        slope_factor_row(gradient.data(), contour.data(), area.data(), count, cell, rules, LS.data());
        double most = 0;
        std::int64_t none = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const double exact = cell_slope_factor(gradient[i], contour[i], area[i], cell, rules);
            ASSERT_EQ(std::isnan(exact), std::isnan(LS[i])) << area[i];
            if (std::isnan(exact))
                ++none;
            else if (std::abs(gradient[i] - 0.09) > 1e-7)
                most = std::max(most, std::abs(LS[i] / exact - 1));
        }
        EXPECT_LT(most, 2e-6);
        EXPECT_EQ(none > 0, ratio != RillRatio::low);
    }
}

TEST(SlopeLengthGrid, TheLongestSlopeHoldsBackGround) {
    const auto ground = plane(60, 3, 5, 0.125);
    const auto area = drained(ground);
    const auto LS = slope_factors({ground, area}, {.longest_slope_m = 100});
    // 100 m are 20 cells: from there on each cell has the LS of the ground from 95 to 100 m.
    const double last = factors::segment_slope_factor_703(95, 100, 0.125, RillRatio::moderate);
    for (std::int64_t r = 19; r < 60; ++r) EXPECT_NEAR(LS(r, 1) / last, 1, 1e-6) << r;
    EXPECT_LT(LS(18, 1), LS(19, 1));
    // Cells wider than the longest slope count themselves alone.
    const auto wide = slope_factors({ground, area}, {.longest_slope_m = 2});
    const double alone = factors::segment_slope_factor_703(0, 5, 0.125, RillRatio::moderate);
    for (const float v : wide.values()) EXPECT_NEAR(v / alone, 1, 1e-6);
}

TEST(SlopeLengthGrid, ChannelsAndHolesHaveNone) {
    auto ground = plane(6, 4, 10, 0.125);
    ground(2, 2) = no_value;
    const auto area = drained(ground);
    const auto LS = slope_factors({ground, area}, {.channel_from_m2 = 500});
    for (std::int64_t r = 0; r < 6; ++r)
        for (std::int64_t c = 0; c < 4; ++c)
            EXPECT_EQ(std::isnan(LS(r, c)), area(r, c) >= 5 || std::isnan(ground(r, c))) << r << ' ' << c;
}

TEST(SlopeLengthGrid, ABarrierMakesTwoFieldsOfOne) {
    const auto whole = plane(20, 6, 5, 0.0625);
    Grid<std::uint8_t> barriers(whole.shape(), 0);
    for (std::int64_t c = 0; c < 6; ++c) barriers(12, c) = 1;
    const auto LS = slope_factors({whole, drained(whole, &barriers)});
    const auto upper = plane(12, 6, 5, 0.0625), lower = plane(8, 6, 5, 0.0625);
    const auto LS_upper = slope_factors({upper, drained(upper)}), LS_lower = slope_factors({lower, drained(lower)});
    for (std::int64_t c = 0; c < 6; ++c) {
        for (std::int64_t r = 0; r < 12; ++r) EXPECT_EQ(LS(r, c), LS_upper(r, c));
        for (std::int64_t r = 0; r < 8; ++r) EXPECT_EQ(LS(12 + r, c), LS_lower(r, c));
    }
}

TEST(SlopeLengthGrid, AGridToCheckByEye) {
    // Falls by 1 m a cell of 8 m towards the east: 0, 1, 2 cells drain in from the west.
    const auto ground = ground_of({{3, 2, 1}, {3, 2, 1}, {3, 2, 1}}, 8);
    const auto area = drained(ground);
    const auto LS = slope_factors({ground, area});
    for (std::int64_t c = 0; c < 3; ++c) {
        EXPECT_EQ(area(1, c), static_cast<double>(c + 1));
        const double from = 8.0 * static_cast<double>(c);
        EXPECT_NEAR(LS(1, c), factors::segment_slope_factor_703(from, from + 8, 0.125, RillRatio::moderate), 1e-6);
    }
}

TEST(SlopeLengthGrid, TilesAndThreadsChangeNothing) {
    const auto ground = rough_ground(150, 170, 5);
    const auto area = drained(ground);
    Grid<float> erosivity(ground.shape(), 3000), cover(ground.shape(), 0.1F);
    cover(30, 30) = no_value;
    const LossLayers layers{{&erosivity}, {nullptr, 0.04}, {&cover}, {}};
    const auto whole = loss_map({ground, area}, layers, {}, {1000, 1});
    for (const std::int64_t side : {1, 7, 64})
        for (const int threads : {1, 2}) {
            const auto tiled = loss_map({ground, area}, layers, {}, {side, threads});
            EXPECT_TRUE(same_bits(tiled.slope_factor, whole.slope_factor));
            EXPECT_TRUE(same_bits(tiled.loss, whole.loss));
            EXPECT_TRUE(same_bits(slope_factors({ground, area}, {}, {side, threads}), whole.slope_factor));
        }
}

TEST(SlopeLengthGrid, LossIsTheProductAndNoneWhereAnyIsMissing) {
    const auto ground = plane(4, 4, 10, 0.125);
    const auto area = drained(ground);
    Grid<float> R(ground.shape(), 2000), K(ground.shape(), 0.03F), C(ground.shape(), 0.2F), P(ground.shape(), 0.5F);
    R(0, 0) = K(0, 1) = C(0, 2) = P(0, 3) = no_value;
    const auto map = loss_map({ground, area}, {{&R}, {&K}, {&C}, {&P}});
    for (std::int64_t r = 0; r < 4; ++r)
        for (std::int64_t c = 0; c < 4; ++c)
            if (r == 0) {
                EXPECT_TRUE(std::isnan(map.loss(r, c)));
            } else {
                EXPECT_NEAR(map.loss(r, c) / (2000 * 0.03 * 0.2 * 0.5 * map.slope_factor(r, c)), 1, 1e-6);
            }
}

TEST(SlopeLengthGrid, GridsOfOtherShapesAndRulesOutOfRangeAreRefused) {
    const auto ground = plane(4, 4, 10, 0.125);
    const auto area = drained(ground);
    const Grid<double> other({3, 4, 10}, 1);
    const Grid<float> cover({3, 4, 10}, 1);
    EXPECT_THROW(slope_factors({ground, other}), std::invalid_argument);
    EXPECT_THROW(loss_map({ground, area}, {{}, {}, {&cover}, {}}), std::invalid_argument);
    for (const double bad : {0.0, -1.0, 305.0, double{NAN}})
        EXPECT_THROW(slope_factors({ground, area}, {.longest_slope_m = bad}), std::invalid_argument) << bad;
    EXPECT_THROW(slope_factors({ground, area}, {.channel_from_m2 = 0}), std::invalid_argument);
}

}  // namespace
