// A calendar of cover of six years, alone and with its doubt; a thousand calendars are to take less than a second.
#include <benchmark/benchmark.h>

#include "../rotation/places.h"
#include "rotation/rotation_cover.h"
#include "rotation/short_forms.h"

namespace {

using namespace soilhold::rotation;

const char* const six_years = "corn-corn-oats-alfalfa-alfalfa-alfalfa, fall plow";

void SixYears(benchmark::State& state) {
    const Rotation rotation = rotation_of_words(six_years);
    const Climate climate = corn_belt();
    for (auto _ : state) benchmark::DoNotOptimize(cover_calendar(rotation, climate));
}
BENCHMARK(SixYears)->Unit(benchmark::kMicrosecond);

void SixYearsWithTheirDoubt(benchmark::State& state) {
    const Rotation rotation = rotation_of_words(six_years);
    const Climate climate = corn_belt();
    for (auto _ : state) benchmark::DoNotOptimize(cover_of_rotation(rotation, climate));
}
BENCHMARK(SixYearsWithTheirDoubt)->Unit(benchmark::kMicrosecond);

}  // namespace
