// Ten thousand draws of two fields and four changes, and where the time goes; to be read as ratios within one run.
#include <benchmark/benchmark.h>

#include "../loss/made_field.h"
#include "change/comparison.h"
#include "spread/low_discrepancy.h"

namespace {

using namespace soilhold;

std::vector<loss::Field> two_fields_four_changes() {
    loss::Field tilled = loss::made_field("tilled", 0.32);
    for (const double C : {0.2, 0.1, 0.08}) {
        loss::Change change;
        change.name = "change";
        change.cover = factors::CoverDescription{};
        change.cover->factor = loss::stated(C);
        tilled.changes.push_back(change);
    }
    loss::Change terrace;
    terrace.name = "terrace";
    terrace.length_m = loss::stated(30.48);
    tilled.changes.push_back(terrace);
    return {tilled, loss::made_field("no-till", 0.08)};
}

void TwoFieldsAndFourChanges(benchmark::State& state) {
    const auto fields = two_fields_four_changes();
    for (auto _ : state) benchmark::DoNotOptimize(change::compare(fields, {10000, 1}));
}
BENCHMARK(TwoFieldsAndFourChanges)->Unit(benchmark::kMillisecond);

void ThePointsAlone(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(spread::normal_scores(15, 10000, 1));
}
BENCHMARK(ThePointsAlone)->Unit(benchmark::kMillisecond);

}  // namespace
