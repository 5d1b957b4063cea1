#include "watershed/disk_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "raster/raster_error.h"
#include "terrain/capped_accumulation.h"

namespace soilhold::watershed {

namespace {

/// Beside all that grows with the map: the program, GDAL's cells, what is read and packed at a time.
constexpr std::int64_t standing = 170'000'000;

struct Asked {
    terrain::Shape shape;
    std::int64_t threads = 1;
    bool spreads = false, barriers = false, resampled = false;
    std::int64_t handed_on = 4;  ///< bytes of a cell that takers get
    std::int64_t filled = 0;     ///< bytes of a cell for filled heights, where they are kept
    std::int64_t steps = 0;      ///< K, where water spreads
    std::int64_t cut_halo = 0;   ///< where pits are cut open
};

Asked asked_of(const raster::HeightsFile& file, const SlopeMapOptions& options, const MapTakers& takers) {
    Asked asked;
    asked.shape = file.shape();
    const auto machine = std::max<std::int64_t>(1, std::thread::hardware_concurrency());
    asked.threads = options.threads > 0 ? std::min<std::int64_t>(options.threads, machine) : machine;
    asked.spreads = options.routing != Routing::d8;
    asked.barriers = !options.barriers.empty();
    asked.resampled = file.resampled();
    for (const auto* taker : {&takers.gradient, &takers.filled, &takers.area, &takers.slope_length, &takers.loss})
        asked.handed_on += *taker ? 4 : 0;
    asked.handed_on += (takers.directions ? 1 : 0) + (takers.channels ? 1 : 0);
    if (options.factors)
        for (const FactorGiven& factor : *options.factors) asked.handed_on += factor.path.empty() ? 0 : 4;
    if (options.pits.cuts) asked.cut_halo = terrain::cut_halo(*options.pits.cuts, asked.shape.cell_m);
    asked.filled = takers.filled || asked.spreads ? 4 : 0;
    if (asked.spreads)
        asked.steps =
            std::max<std::int64_t>(1, terrain::steps_within(options.rules.longest_slope_m, asked.shape.cell_m));
    return asked;
}

std::int64_t memory_of(const Asked& asked, const DiskPlan& plan) {
    const auto [columns, rows, cell_m] = asked.shape;
    const std::int64_t tiles = ((columns + plan.side - 1) / plan.side) * ((rows + plan.side - 1) / plan.side);
    const std::int64_t rim = std::min(tiles * 4 * plan.side, asked.shape.cells());
    const std::int64_t tile = std::min(plan.side, columns) * std::min(plan.side, rows);
    // Rows of tiles: heights with their halo, twice while they are directed, filled ones, directions.
    const std::int64_t filling = 14 * (std::min(plan.side, rows) + 2) * columns + 40 * tile * asked.threads;
    const std::int64_t joining = 70 * rim;
    // Cuts lower a few cells in a hundred, each known twice before they are joined.
    const std::int64_t lowered = asked.cut_halo > 0 ? asked.shape.cells() / 2 : 0;
    const std::int64_t reach = std::max<std::int64_t>(256, 2 * asked.cut_halo) + 2 * asked.cut_halo;
    const std::int64_t cutting =
        asked.cut_halo > 0 ? lowered + 4 * reach * columns + 8 * reach * reach * asked.threads : 0;
    // Heights, directions, sums; of water that spreads also the contour, and what it comes from.
    std::int64_t held = 14 + asked.filled + (asked.barriers ? 10 : 0), making = 20 * tile * asked.threads;
    if (asked.spreads) {
        const std::int64_t around = plan.rows + 2 * asked.steps + 2, square = 256 + 2 * asked.steps + 2;
        held += 13;
        making = std::max(making, 6 * around * columns + 50 * square * square * asked.threads) +
                 16 * std::min(plan.rows, rows) * columns;
    }
    const auto strips = static_cast<std::int64_t>(plan.strips);
    const std::int64_t at_once = std::min((strips * 256 + plan.rows - 1) / plan.rows + 1, strips);
    const std::int64_t finishing = (asked.barriers ? 16 : 8) * rim +
                                   held * (std::min(plan.rows, rows) + 2) * columns * at_once + making +
                                   asked.handed_on * 256 * columns * strips;
    const std::int64_t most = std::max({cutting, lowered + filling + joining, finishing});
    return standing + (asked.resampled ? std::max(raster::resampling_memory, most) : most);
}

std::int64_t scratch_of(const Asked& asked) {
    // Heights, floods, directions; open flats are seldom more than a tenth of the cells.
    const std::int64_t bytes = 4 + 3 + 1 + 2 + asked.filled + (asked.spreads ? 1 : 0) + (asked.barriers ? 1 : 0);
    return asked.shape.cells() * (bytes + (asked.resampled ? 4 : 0));
}

}  // namespace

std::int64_t memory_of_all(const raster::HeightsFile& file, const SlopeMapOptions& options, const MapTakers& takers) {
    const Asked asked = asked_of(file, options, takers);
    const std::int64_t strips = asked.handed_on * 256 * asked.shape.columns * 4;
    return standing + asked.shape.cells() * (asked.spreads ? 25 : 20) + strips;
}

DiskPlan plan_from_disk(const raster::HeightsFile& file, const std::string& path, const SlopeMapOptions& options,
                        const MapTakers& takers) {
    const Asked asked = asked_of(file, options, takers);
    DiskPlan least;
    for (std::int64_t side = 256; side <= 4096; side *= 2)
        for (const std::size_t strips : {std::size_t{4}, std::size_t{2}}) {
            DiskPlan plan{.side = side, .rows = side, .strips = strips};
            // Water that spreads is summed with much ground around: the more rows at a time, the less of it twice.
            if (asked.spreads) plan.rows = std::max(side, (2 * asked.steps + 255) / 256 * 256 / side * side);
            for (;;) {
                plan.memory = memory_of(asked, plan);
                plan.scratch = scratch_of(asked);
                if (plan.memory <= options.memory) return plan;
                if (least.memory == 0 || plan.memory < least.memory) least = plan;
                if (plan.rows == side) break;
                plan.rows = side;
            }
        }
    throw raster::RasterError(
        path, "too-little-memory",
        fmt::format("its {:.0f} million cells can be worked from the disk, but that takes {} of memory; {} is allowed. "
                    "Give --memory \"{}\", or wider cells (--cell).",
                    static_cast<double>(asked.shape.cells()) / 1e6, bytes_in_words(least.memory),
                    bytes_in_words(options.memory), bytes_in_words(least.memory)));
}

std::string bytes_in_words(std::int64_t bytes) {
    const auto size = static_cast<double>(bytes);
    return size < 1e9 ? fmt::format("{:.0f} MB", std::ceil(size / 1e6))
                      : fmt::format("{:.1f} GB", std::ceil(size / 1e8) / 10);
}

}  // namespace soilhold::watershed
