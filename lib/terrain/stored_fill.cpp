#include "terrain/stored_fill.h"

#include <vector>

#include "terrain/tile_rows.h"

namespace soilhold::terrain {
namespace {

void keep(TileRecords& records, std::int64_t tile, const TileFlood& flood) {
    records.put(tile, flood.basin, flood.wide_basin, flood.level, flood.outlet, flood.bottom);
}

TileFlood kept(const TileRecords& records, std::int64_t number, const Tile& tile) {
    TileFlood flood;
    flood.rows = tile.rows;
    flood.columns = tile.columns;
    records.get(number, flood.basin, flood.wide_basin, flood.level, flood.outlet, flood.bottom);
    return flood;
}

std::vector<FloodRim> flood_all(const TileCut& cut, const RowReader<float>& ground, TileRecords& records, int threads,
                                const std::function<void(double)>& progress) {
    std::vector<FloodRim> rims(static_cast<std::size_t>(cut.count()));
    for (std::int64_t down = 0; down < cut.down(); ++down) {
        progress(static_cast<double>(down) / static_cast<double>(cut.down()));
        const TileRows strip = tile_rows(cut, down);
        const Grid<float> rows = with_halo(cut, strip, ground);
        in_parallel(strip.tiles, threads, [&](std::int64_t along) {
            const std::int64_t number = strip.first_tile + along;
            TileFlood flood = flood_tile(cut_patch(rows, strip.within(cut.tile(number)), no_value));
            keep(records, number, flood);
            rims[static_cast<std::size_t>(number)] = std::move(flood.rim);
        });
    }
    return rims;
}

}  // namespace

FillReport fill_stored(const Shape& shape, const RowReader<float>& ground, const ByteStore& floods,
                       const std::function<void(std::int64_t row, Grid<float>& filled)>& take, const Tiling& tiling,
                       const std::function<void(double)>& progress) {
    const TileCut cut(shape, tiling.side);
    TileRecords records(cut.count(), floods);
    std::vector<std::vector<float>> levels;
    {
        const std::vector<FloodRim> rims =
            flood_all(cut, ground, records, tiling.threads, [&](double share) { progress(0.6 * share); });
        std::vector<const FloodRim*> each;
        for (const FloodRim& rim : rims) each.push_back(&rim);
        levels = join_rims(cut, each);
    }
    std::vector<Raised> raised(static_cast<std::size_t>(cut.count()));
    for (std::int64_t down = 0; down < cut.down(); ++down) {
        progress(0.6 + 0.4 * static_cast<double>(down) / static_cast<double>(cut.down()));
        const TileRows strip = tile_rows(cut, down, 1, 0);
        Grid<float> rows = with_halo(cut, strip, ground);
        in_parallel(strip.tiles, tiling.threads, [&](std::int64_t along) {
            const std::int64_t number = strip.first_tile + along;
            const Tile tile = cut.tile(number);
            TileFlood flood = kept(records, number, tile);
            raised[static_cast<std::size_t>(number)] =
                settle_basins(flood, levels[static_cast<std::size_t>(number)], &rows(0, tile.column), rows.columns());
        });
        take(strip.row, rows);
    }
    return report_of(raised, shape.cell_m);
}

}  // namespace soilhold::terrain
