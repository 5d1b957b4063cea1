/// How long slope, slope factor and loss take a cell: the items a second are cells.
#include <benchmark/benchmark.h>

#include <cmath>
#include <vector>

#include "../terrain/made_ground.h"
#include "terrain/accumulation.h"
#include "terrain/capped_accumulation.h"
#include "terrain/crossed_contour.h"
#include "terrain/d_infinity.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"
#include "terrain/horn_slope.h"
#include "terrain/multiple_flow.h"
#include "terrain/slope_length_grid.h"

namespace {

using namespace soilhold::terrain;

constexpr std::int64_t side = 1500;

struct Made {
    Grid<float> ground, filled;
    Grid<Direction> directions;
    Grid<double> drained;
};

const Made& made() {
    static const Made all = [] {
        Made m;
        m.ground = rough_ground(side, side, 1);
        m.filled = m.ground;
        fill_depressions(m.filled);
        m.directions = flow_directions(m.filled);
        m.drained = accumulate(m.directions);
        return m;
    }();
    return all;
}

// Argument of all: threads, 0 for as many as there are.
Tiling tiling(const benchmark::State& state) {
    made();  // not to be counted in the first round
    return {.threads = static_cast<int>(state.range(0))};
}

void count_cells(benchmark::State& state) { state.SetItemsProcessed(state.iterations() * side * side); }

void slope_and_contour(benchmark::State& state) {
    const Tiling tiles = tiling(state);
    for (auto _ : state) benchmark::DoNotOptimize(horn_slopes(made().ground, tiles));
    count_cells(state);
}

void slope_factor_of_cells(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(slope_factors({made().ground, made().drained}, {}, tiling(state)));
    count_cells(state);
}

// The rows alone, slopes at hand.
void slope_factor_rows(benchmark::State& state) {
    const auto slopes = horn_slopes(made().ground);
    std::vector<float> LS(side);
    for (auto _ : state)
        for (std::int64_t r = 0; r < side; ++r) {
            slope_factor_row(&slopes.gradient(r, 0), &slopes.contour(r, 0), &made().drained(r, 0), side, 5, {},
                             LS.data());
            benchmark::DoNotOptimize(LS.data());
        }
    count_cells(state);
}

// The same by std::pow in doubles, to compare with.
void slope_factor_by_the_equation(benchmark::State& state) {
    const auto slopes = horn_slopes(made().ground);
    for (auto _ : state) {
        double sum = 0;
        for (std::int64_t r = 0; r < side; ++r)
            for (std::int64_t c = 0; c < side; ++c)
                sum += cell_slope_factor(slopes.gradient(r, c), slopes.contour(r, c), made().drained(r, c), 5, {});
        benchmark::DoNotOptimize(sum);
    }
    count_cells(state);
}

void loss_of_four_grids(benchmark::State& state) {
    const Grid<float> R(made().ground.shape(), 3000), K(R.shape(), 0.04F), C(R.shape(), 0.1F), P(R.shape(), 1);
    for (auto _ : state)
        benchmark::DoNotOptimize(
            loss_map({made().ground, made().drained}, {{&R}, {&K}, {&C}, {&P}}, {}, tiling(state)));
    count_cells(state);
}

// Second argument: 0 single, 1 Freeman, 2 D-infinity; third: steps.
void capped_sums(benchmark::State& state) {
    const Tiling tiles = tiling(state);
    const ShareRule rule = state.range(1) == 0   ? ShareRule(single_flow)
                           : state.range(1) == 1 ? ShareRule(freeman_flow)
                                                 : ShareRule(d_infinity_flow);
    for (auto _ : state)
        benchmark::DoNotOptimize(capped_accumulation({made().filled, made().directions}, rule, state.range(2), tiles));
    count_cells(state);
}

void contour_crossed(benchmark::State& state) {
    const Tiling tiles = tiling(state);
    for (auto _ : state)
        benchmark::DoNotOptimize(crossed_contour(made().filled, made().directions, freeman_flow, tiles));
    count_cells(state);
}

}  // namespace

BENCHMARK(slope_and_contour)->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(slope_factor_of_cells)->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(slope_factor_rows)->Unit(benchmark::kMillisecond);
BENCHMARK(slope_factor_by_the_equation)->Unit(benchmark::kMillisecond);
BENCHMARK(loss_of_four_grids)->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(capped_sums)
    ->Args({1, 0, 0})
    ->Args({1, 1, 0})
    ->Args({1, 2, 0})
    ->Args({1, 0, 24})
    ->Args({1, 1, 24})
    ->Args({1, 1, 122})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK(contour_crossed)->Arg(1)->Unit(benchmark::kMillisecond)->UseRealTime();
