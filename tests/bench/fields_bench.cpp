// Two thousand fields of a watershed summed and ranked by five criteria with a thousand draws each, beside the draws
// alone; to be read as ratios within one run. What is asked: under 3 s after the map.
#include "watershed/fields.h"

#include <benchmark/benchmark.h>

#include <cmath>
#include <string>
#include <vector>

#include "spread/independent.h"

namespace {

using namespace soilhold;
using namespace soilhold::watershed;

constexpr std::int64_t across = 50, down = 40, cells_wide = 20;  // fields, and their width in cells of 5 m: 1 ha each

struct MadeWatershed {
    terrain::Shape shape{across * cells_wide, down* cells_wide, 5};
    Layers layers;
    Ways ways;
    raster::Placement placement;
    std::vector<FieldGiven> given;
    FieldSettings settings;
};

MadeWatershed made() {
    MadeWatershed made;
    made.placement = {.west = 0,
                      .north = 5.0 * static_cast<double>(made.shape.rows),
                      .cell_width = 5,
                      .cell_height = 5,
                      .columns = made.shape.columns,
                      .rows = made.shape.rows,
                      .crs = "",
                      .unit_m = 1};
    made.layers.LS = terrain::Grid<float>(made.shape, 1);
    made.ways.to_channel_m = terrain::Grid<float>(made.shape, 1);
    for (std::int64_t row = 0; row < made.shape.rows; ++row)
        for (std::int64_t column = 0; column < made.shape.columns; ++column) {
            const double wave =
                std::sin(0.013 * static_cast<double>(row)) * std::cos(0.029 * static_cast<double>(column));
            made.layers.LS(row, column) = static_cast<float>(1.2 + wave);
            made.ways.to_channel_m(row, column) = static_cast<float>(200 + 150 * wave);
        }
    made.layers.R = {"R", {}, 2000, {}};
    made.layers.C = {"C", {}, 0.2F, {}};
    made.layers.P = {"P", {}, 1, {}};
    made.layers.soils.list = {{"loam", 0.04F, 11}};
    for (std::int64_t i = 0; i < across * down; ++i) {
        // Outlines lie askew, so that their edges cut cells.
        const double west = 100.0 * static_cast<double>(i % across) + 2,
                     south = 100.0 * static_cast<double>(i / across) + 1;
        FieldGiven field;
        field.polygon.id = i;
        field.polygon.name = "field " + std::to_string(i);
        field.polygon.parts = {
            {{{west, south}, {west + 95, south + 3}, {west + 93, south + 96}, {west + 1, south + 92}}, {}}};
        field.polygon.area_m2 = 95.0 * 94.0;
        field.C = 0.05 + 0.002 * static_cast<double>(i % 97);
        made.given.push_back(field);
    }
    Practice no_till;
    no_till.name = "no-till";
    no_till.times = 0.4;
    made.settings.offered = {no_till};
    made.settings.top = 40;
    made.settings.draws = 1000;
    return made;
}

void TwoThousandFieldsSummedAndRanked(benchmark::State& state) {
    const MadeWatershed watershed = made();
    const LossMap map = loss_map(watershed.layers);
    for (auto _ : state) {
        LossMap own = map;
        const Fields fields = work_fields(watershed.layers, watershed.ways, watershed.placement, watershed.given,
                                          watershed.settings, own);
        if (fields.fields.size() != watershed.given.size()) state.SkipWithError("a field was left out");
        benchmark::DoNotOptimize(fields);
    }
}
BENCHMARK(TwoThousandFieldsSummedAndRanked)->Unit(benchmark::kMillisecond);

void TheirDrawsAlone(benchmark::State& state) {
    for (auto _ : state)
        for (std::uint64_t field = 0; field < across * down; ++field)
            benchmark::DoNotOptimize(spread::independent_scores(field, 1000, 1));
}
BENCHMARK(TheirDrawsAlone)->Unit(benchmark::kMillisecond);

}  // namespace
