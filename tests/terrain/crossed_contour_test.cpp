#include "terrain/crossed_contour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "factors/irregular_slope.h"
#include "factors/slope_length.h"
#include "terrain/capped_accumulation.h"
#include "terrain/d_infinity.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"
#include "terrain/multiple_flow.h"
#include "terrain/slope_length_grid.h"
#include "terrain/turned.h"

namespace {

using namespace soilhold;
using namespace soilhold::terrain;

TEST(CrossedContour, IsOneAlongRowsAndLessAcrossCorners) {
    EXPECT_FLOAT_EQ(crossed_contour_of(single_flow_shares(Direction::west)), 1);
    EXPECT_FLOAT_EQ(crossed_contour_of(single_flow_shares(Direction::northeast)), 1 / std::numbers::sqrt2_v<float>);
    EXPECT_FLOAT_EQ(crossed_contour_of(single_flow_shares(Direction::outlet)), 1);
    // Half east, half south: a mean step of (1/2, 1/2).
    EXPECT_FLOAT_EQ(crossed_contour_of({{0.5F, 0.5F}}), std::numbers::sqrt2_v<float>);
    // A ridge sheds half of its cell to each side: half a cell of slope.
    EXPECT_FLOAT_EQ(crossed_contour_of({{0.5F, 0, 0.5F}}), 2);
}

// A plane that falls toward the south-east corner by `gradient`.
Grid<float> corner_plane(std::int64_t side, double gradient) {
    Grid<float> grid({side, side, 4});
    for (std::int64_t r = 0; r < side; ++r)
        for (std::int64_t c = 0; c < side; ++c)
            grid(r, c) = static_cast<float>(500 - gradient * 4 * static_cast<double>(r + c) / std::numbers::sqrt2);
    return grid;
}

TEST(CrossedContour, OnASlopeThatFacesACornerSingleDirectionsGiveTheHillslopesLS) {
    const auto ground = corner_plane(20, 0.125);
    const auto ways = flow_directions(ground);
    const auto drained = capped_accumulation({ground, ways}, single_flow, 40);
    const auto contour = crossed_contour(ground, ways, single_flow);
    const auto LS = slope_factors({ground, drained, &contour});
    const auto by_ways = slope_factors({ground, drained, nullptr, &ways});
    const auto paper = slope_factors({ground, drained});
    const double m = factors::length_exponent_703(0.125, factors::RillRatio::moderate);
    for (std::int64_t r = 1; r < 19; ++r)
        for (std::int64_t c = 1; c < 19; ++c) {
            const double step = 4 * std::numbers::sqrt2, from = step * static_cast<double>(std::min(r, c));
            const double segment =
                factors::segment_slope_factor_703(from, from + step, 0.125, factors::RillRatio::moderate);
            EXPECT_NEAR(LS(r, c) / segment, 1, 5e-5) << r << ' ' << c;
            EXPECT_NEAR(by_ways(r, c) / segment, 1, 5e-5) << r << ' ' << c;
            // The paper's x: half the length, so 2^-m of it.
            EXPECT_NEAR(paper(r, c) / segment, std::pow(0.5, m), 5e-5);
        }
}

TEST(CrossedContour, OnAnyPlaneSpreadingWaterGivesTheHillslopesLS) {
    // In the middle of a wide plane flow is the same along each contour, so a cell has the LS of the metres about its
    // middle, counted from the upper border; facing the corner, that border lies across the diagonal.
    for (const auto& [name, rule] : std::vector<std::pair<std::string, ShareRule>>{
             {"freeman", freeman_flow}, {"quinn", quinn_flow}, {"d-infinity", d_infinity_flow}})
        for (const bool corner : {false, true}) {
            auto ground = corner_plane(161, 0.125);
            for (std::int64_t r = 0; r < 161; ++r)
                for (std::int64_t c = 0; c < 161; ++c) {
                    if (!corner) ground(r, c) = static_cast<float>(500 - 0.5 * static_cast<double>(r));
                    if (corner && r + c < 160) ground(r, c) = no_value;
                }
            const auto ways = flow_directions(ground);
            const auto drained = capped_accumulation({ground, ways}, rule, 300);
            const auto contour = crossed_contour(ground, ways, rule);
            const auto LS = slope_factors({ground, drained, &contour});
            for (const std::int64_t down : {5, 10, 20}) {
                const std::int64_t r = corner ? 80 + down : down, c = 80 + (corner ? down : 0);
                // Rows of cells down the slope lie D apart, or D / sqrt 2 facing a corner.
                const double apart = corner ? 4 / std::numbers::sqrt2 : 4,
                             rows = static_cast<double>(corner ? 2 * down : down);
                const double segment =
                    factors::segment_slope_factor_703(std::max(0.0, (rows + 0.5) * apart - 2), (rows + 0.5) * apart + 2,
                                                      0.125, factors::RillRatio::moderate);
                EXPECT_NEAR(LS(r, c) / segment, 1, corner ? 0.03 : 1e-5) << name << ' ' << corner << ' ' << down;
            }
        }
}

TEST(CrossedContour, TilesAndThreadsChangeNothing) {
    auto ground = rough_ground(70, 90, 5);
    fill_depressions(ground);
    const auto ways = flow_directions(ground);
    const auto whole = crossed_contour(ground, ways, freeman_flow, {1000, 1});
    for (const std::int64_t side : {1, 13})
        EXPECT_TRUE(same_bits(crossed_contour(ground, ways, freeman_flow, {side, 2}), whole));
    for (std::size_t i = 0; i < whole.values().size(); ++i) {
        const float x = whole.values()[i];
        EXPECT_EQ(std::isnan(x), ways.values()[i] == Direction::none);
        EXPECT_TRUE(std::isnan(x) || (x > 0.707F && x <= 2));
    }
}

TEST(CrossedContour, GridsOfOtherShapesAreRefused) {
    const auto ground = ground_of({{3, 2}, {2, 1}});
    EXPECT_THROW(crossed_contour(ground, Grid<Direction>({3, 3, 1}), single_flow), std::invalid_argument);
    const Grid<double> drained(ground.shape(), 1);
    const Grid<float> contour({3, 3, 1}, 1);
    EXPECT_THROW(slope_factors({ground, drained, &contour}), std::invalid_argument);
}

}  // namespace
