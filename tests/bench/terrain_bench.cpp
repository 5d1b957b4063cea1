/// How long the steps on a grid take: rough ground with many pits, level benches and holes, and tilted ground with
/// few. Each reports cells a second; its inverse is the time a cell.
#include <benchmark/benchmark.h>

#include "../terrain/made_ground.h"
#include "terrain/accumulation.h"
#include "terrain/breaching.h"
#include "terrain/depressions.h"
#include "terrain/flow_directions.h"

namespace {

using namespace soilhold::terrain;

constexpr std::int64_t side = 2000;

const Grid<float>& made(bool tilted) {
    static const auto rough = rough_ground(side, side, 1);
    static const auto tilt = rough_ground(side, side, 1, {.tilt = 1.5, .noise_m = 0.02, .benches = false});
    return tilted ? tilt : rough;
}

// First argument: 0 rough, 1 tilted; second: threads, 0 for all.
void filling(benchmark::State& state) {
    for (auto _ : state) {
        state.PauseTiming();
        auto ground = made(state.range(0) != 0);
        state.ResumeTiming();
        benchmark::DoNotOptimize(fill_depressions(ground, {.threads = static_cast<int>(state.range(1))}));
    }
    state.SetItemsProcessed(state.iterations() * side * side);
}

void breaching(benchmark::State& state) {
    for (auto _ : state) {
        state.PauseTiming();
        auto ground = made(state.range(0) != 0);
        state.ResumeTiming();
        benchmark::DoNotOptimize(breach_depressions(ground, {}, {.threads = static_cast<int>(state.range(1))}));
    }
    state.SetItemsProcessed(state.iterations() * side * side);
}

void routing(benchmark::State& state) {
    auto ground = made(state.range(0) != 0);
    fill_depressions(ground);
    for (auto _ : state)
        benchmark::DoNotOptimize(flow_directions(ground, {.threads = static_cast<int>(state.range(1))}));
    state.SetItemsProcessed(state.iterations() * side * side);
}

void accumulating(benchmark::State& state) {
    auto ground = made(state.range(0) != 0);
    fill_depressions(ground);
    const auto directions = flow_directions(ground);
    for (auto _ : state)
        benchmark::DoNotOptimize(accumulate(directions, {}, {.threads = static_cast<int>(state.range(1))}));
    state.SetItemsProcessed(state.iterations() * side * side);
}

}  // namespace

BENCHMARK(filling)->ArgsProduct({{0, 1}, {1, 0}})->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(breaching)->ArgsProduct({{0, 1}, {1, 0}})->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(routing)->ArgsProduct({{0, 1}, {1, 0}})->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(accumulating)->ArgsProduct({{0, 1}, {1, 0}})->Unit(benchmark::kMillisecond)->UseRealTime();
