#include "terrain/stored_cuts.h"

#include <algorithm>
#include <utility>

#include "terrain/tile_rows.h"

namespace soilhold::terrain {

Cuts stored_cuts(const Shape& shape, const RowReader<float>& ground, const CutLimits& limits, const Tiling& tiling,
                 const std::function<void(double)>& progress) {
    const TileCut cut(shape, tiling.side);
    const std::int64_t halo = cut_halo(limits, shape.cell_m);
    std::vector<TileCuts> tiles(static_cast<std::size_t>(cut.count()));
    const auto down = static_cast<double>(cut.down());
    for (std::int64_t number = 0; number < cut.down(); ++number) {
        progress(0.9 * static_cast<double>(number) / down);
        const TileRows strip = tile_rows(cut, number, 1, halo);
        const Grid<float> rows = with_halo(cut, strip, ground);
        in_parallel(strip.tiles, tiling.threads, [&](std::int64_t t) {
            const std::int64_t tile = strip.first_tile + t;
            tiles[static_cast<std::size_t>(tile)] =
                find_cuts(surroundings_of(rows, strip.first, shape, cut.tile(tile), halo), limits, shape.cell_m);
        });
    }
    Cuts cuts = join_cuts(std::move(tiles), shape, tiling.threads);
    std::int64_t steps = 0;
    for (std::int64_t number = 0; number < cut.down(); ++number) {
        progress(0.9 + 0.1 * static_cast<double>(number) / down);
        const TileRows strip = tile_rows(cut, number, 1, 0);
        Grid<float> rows = with_halo(cut, strip, ground);
        steps += lower_cells(cuts.cells, strip.row, rows);
    }
    cuts.report.volume_m3 = volume_of(steps, shape.cell_m);
    return cuts;
}

}  // namespace soilhold::terrain
