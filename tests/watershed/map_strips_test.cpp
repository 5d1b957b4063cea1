/// The last steps of a map, strip by strip, held to the same steps on whole grids.
#include "watershed/map_strips.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "../terrain/made_ground.h"
#include "../terrain/turned.h"
#include "terrain/accumulation.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/horn_slope.h"

namespace soilhold::watershed {
namespace {

using terrain::Grid;
using terrain::HeldRows;
using terrain::Strip;

constexpr terrain::SlopeLengthRules rules{.channel_from_m2 = 20000};

/// Three strips, the last one short.
struct Made {
    Grid<float> ground = terrain::rough_ground(600, 45, 5), filled = ground;
    Grid<terrain::Direction> ways{ground.shape()};
    Grid<double> drained{ground.shape()};
    std::array<Grid<float>, 4> factors;
    terrain::LossMap whole;

    Made() {
        terrain::fill_depressions(filled);
        ways = terrain::flow_directions(filled);
        drained = terrain::accumulate(ways);
        for (std::uint32_t i = 0; i < 4; ++i) {
            factors[i] = Grid<float>(ground.shape());
            for (std::int64_t row = 0; row < 600; ++row)
                for (std::int64_t column = 0; column < 45; ++column) {
                    const double draw = terrain::chance(row, column, 7 + i);
                    factors[i](row, column) = draw < 0.01 ? terrain::no_value : static_cast<float>(draw);
                }
        }
        whole = terrain::loss_map({ground, drained, nullptr, &ways},
                                  {{&factors[0]}, {&factors[1]}, {nullptr, 0.25}, {&factors[3]}}, rules);
    }
    GroundSource source() const {
        return {[this](const Strip&, StripGround& strip) {
                    strip.elevation = HeldRows(ground);
                    strip.drained = HeldRows(drained);
                    strip.ways = HeldRows(ways);
                },
                {}};
    }
    StripFactors on_strips() const {
        StripFactors read;
        for (const std::size_t i : {0U, 1U, 3U})
            read[i].read = [this, i](std::int64_t row, Grid<float>& to) {
                const auto from = factors[i].values().subspan(static_cast<std::size_t>(row * 45));
                std::copy_n(from.begin(), to.values().size(), to.values().begin());
            };
        read[2].value = 0.25;
        return read;
    }
};

const Made& made() {
    static const Made all;
    return all;
}

MapTakers::Values into(Grid<float>& grid) {
    grid = Grid<float>(made().ground.shape(), -1);
    return [&grid](std::int64_t row, const Grid<float>& strip) {
        std::copy(strip.values().begin(), strip.values().end(), &grid(row, 0));
    };
}

TEST(MapStrips, GiveTheBitsOfTheWholeGridOnAnyNumberOfThreads) {
    const auto slopes = terrain::horn_slopes(made().ground);
    for (const int threads : {1, 2}) {
        Grid<float> gradient, LS, loss;
        MapTakers takers;
        takers.gradient = into(gradient);
        takers.slope_factor = into(LS);
        takers.loss = into(loss);
        const StripFactors factors = made().on_strips();
        const MapFindings found = finish_map(made().ground.shape(), made().source(), &factors, rules, takers, threads);
        EXPECT_TRUE(terrain::same_bits(gradient, slopes.gradient)) << threads;
        EXPECT_TRUE(terrain::same_bits(LS, made().whole.slope_factor)) << threads;
        EXPECT_TRUE(terrain::same_bits(loss, made().whole.loss)) << threads;
        EXPECT_GT(found.channel_cells, 0);
        EXPECT_GT(found.loss.cells, 0);
    }
}

TEST(MapStrips, CountWhatTheyHandOn) {
    const StripFactors factors = made().on_strips();
    const MapFindings found = finish_map(made().ground.shape(), made().source(), &factors, rules, {}, 2);
    std::int64_t cells = 0, channels = 0;
    double sum = 0;
    for (const float loss : made().whole.loss.values())
        if (!std::isnan(loss)) ++cells, sum += static_cast<double>(loss);
    for (const double drained : made().drained.values()) channels += drained * 25 >= 20000 ? 1 : 0;
    EXPECT_EQ(found.loss.cells, cells);
    EXPECT_NEAR(found.loss.mean, sum / static_cast<double>(cells), 1e-9 * sum);
    EXPECT_EQ(found.channel_cells, channels);
    const MapFindings alone = finish_map(made().ground.shape(), made().source(), nullptr, rules, {}, 1);
    EXPECT_EQ(alone.slope_factor.mean, found.slope_factor.mean);
    EXPECT_EQ(alone.loss.cells, 0);
}

TEST(MapStrips, AreHandedOnFromNorthToSouth) {
    std::vector<std::int64_t> rows;
    MapTakers takers;
    takers.loss = [&](std::int64_t row, const Grid<float>& strip) {
        rows.push_back(row);
        EXPECT_EQ(strip.rows(), std::min<std::int64_t>(256, 600 - row));
    };
    const StripFactors factors = made().on_strips();
    finish_map(made().ground.shape(), made().source(), &factors, rules, takers, 0);
    EXPECT_EQ(rows, (std::vector<std::int64_t>{0, 256, 512}));
}

TEST(MapStrips, PassOnWhatATakerThrows) {
    MapTakers takers;
    takers.slope_factor = [](std::int64_t, const Grid<float>&) { throw std::runtime_error("full"); };
    EXPECT_THROW(finish_map(made().ground.shape(), made().source(), nullptr, rules, takers, 2), std::runtime_error);
}

}  // namespace
}  // namespace soilhold::watershed
