// What capping the contributing ground by steps changes against the full sums, on made hills: the table of
// docs/decisions/0001-capped-contributing-area.md, which must hold the rows printed here.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>

#include "terrain/accumulation.h"
#include "terrain/capped_accumulation.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/made_ground.h"
#include "terrain/multiple_flow.h"
#include "terrain/slope_length_grid.h"

namespace {

using namespace soilhold::terrain;

constexpr std::int64_t steps_enough = 1500;  // the longest way on these hills has fewer

struct Hills {
    Grid<float> ground = rough_ground(256, 256, 21, {.tilt = 0.5, .noise_m = 0.02, .benches = false, .holes = false});
    Grid<float> filled;
    Grid<Direction> directions;
    Hills() {
        for (float& z : ground.values()) z *= 0.4F;  // some 12 % on the average
        filled = ground;
        fill_depressions(filled);
        directions = flow_directions(filled);
    }
};

const Hills& hills() {
    static const Hills made;
    return made;
}

struct Change {
    std::string row;
    double mean_change = 0, cells_changed = 0;
};

Change change_of(const std::string& routing, double cap_m, const Grid<double>& full, const Grid<double>& capped) {
    const SlopeLengthRules rules{.longest_slope_m = cap_m};
    const auto LS_full = slope_factors({hills().ground, full}, rules);
    const auto LS_capped = slope_factors({hills().ground, capped}, rules);
    double fewer = 0, other = 0, most = 0, sum_full = 0, sum_capped = 0;
    const auto cells = static_cast<double>(full.shape().cells());
    for (std::size_t i = 0; i < full.values().size(); ++i) {
        const double a = LS_full.values()[i], b = LS_capped.values()[i];
        fewer += capped.values()[i] < full.values()[i] * (1 - 1e-5);
        other += std::abs(b / a - 1) > 0.01;
        most = std::max(most, 1 - b / a);
        sum_full += a, sum_capped += b;
    }
    const double mean = sum_capped / sum_full - 1;
    return {fmt::format("| {} | {:.0f} m | {} | {:.1f} % | {:.1f} % | {:.2f} % | {:.0f} % |", routing, cap_m,
                        steps_within(cap_m, 5), 100 * fewer / cells, 100 * other / cells, 100 * mean, -100 * most),
            mean, other / cells};
}

void stands_in_the_page(const std::string& row) {
    fmt::print("{}\n", row);
    std::ifstream page(SOILHOLD_ROOT "/docs/decisions/0001-capped-contributing-area.md");
    const std::string text{std::istreambuf_iterator<char>(page), {}};
    EXPECT_NE(text.find(row), std::string::npos) << row;
}

TEST(CappedAgainstFull, OfSingleDirectionsHardlyAnyLSChanges) {
    const auto full = accumulate(hills().directions);
    for (const double cap_m : {122.0, 304.8}) {
        const auto capped =
            capped_accumulation({hills().filled, hills().directions}, single_flow, steps_within(cap_m, 5));
        const auto change = change_of("single", cap_m, full, capped);
        stands_in_the_page(change.row);
        EXPECT_LE(change.mean_change, 0);
        EXPECT_GT(change.mean_change, -0.005);
        EXPECT_LT(change.cells_changed, 0.03);
    }
}

// Where water spreads, each channel gives shares to its banks, whose sums then hold its whole basin. The cap takes that
// away; with barriers at the channels less is left to change.
TEST(CappedAgainstFull, OfSpreadingWaterMeanLSFallsByAFewPercent) {
    const auto single = accumulate(hills().directions);
    Grid<std::uint8_t> channels(single.shape(), 0);
    for (std::int64_t r = 0; r < single.rows(); ++r)
        for (std::int64_t c = 0; c < single.columns(); ++c) channels(r, c) = single(r, c) * 25 >= 10000;
    double open_change[2] = {};
    for (const bool barred : {false, true}) {
        const CappedGround ground{hills().filled, hills().directions, barred ? &channels : nullptr};
        const auto full = capped_accumulation(ground, freeman_flow, steps_enough);
        for (const double cap_m : {122.0, 304.8}) {
            const auto capped = capped_accumulation(ground, freeman_flow, steps_within(cap_m, 5));
            const auto change =
                change_of(barred ? "Freeman, channels from 1 ha barred" : "Freeman", cap_m, full, capped);
            stands_in_the_page(change.row);
            EXPECT_LE(change.mean_change, 0);
            EXPECT_GT(change.mean_change, -0.06);
            double& open = open_change[cap_m > 200];
            if (!barred) open = change.mean_change;
            EXPECT_TRUE(!barred || change.mean_change > open * 0.75) << change.mean_change;
        }
    }
}

}  // namespace
