#include "terrain/stored_flow.h"

#include "terrain/tile_flow.h"

namespace soilhold::terrain {
namespace {

struct Summed {
    Ways ways;
    Patch<double> sums;
    FlowRim rim;
};

// A tile summed as if nothing ran into it. `tile` counts its rows in the grids given.
Summed sum_alone(const Grid<Direction>& directions, const Grid<std::uint8_t>* barriers, const Tile& tile) {
    const auto patch = cut_patch(directions, tile, Direction::none);
    Summed summed{Ways(0, 0, 0), Patch<double>(tile.rows, tile.columns, 0), {}};
    if (barriers) {
        const auto stops = cut_patch(*barriers, tile, std::uint8_t{0});
        summed.ways = ways_of(patch, &stops);
    } else {
        summed.ways = ways_of(patch, nullptr);
    }
    for (std::int64_t r = 0; r < tile.rows; ++r)
        for (std::int64_t c = 0; c < tile.columns; ++c) summed.sums(r, c) = patch(r, c) == Direction::none ? 0.0 : 1.0;
    summed.rim = accumulate_tile(summed.ways, summed.sums);
    return summed;
}

}  // namespace

Arrivals stored_arrivals(const TileCut& cut, const RowReader<Direction>& directions,
                         const RowReader<std::uint8_t>& barriers, int threads,
                         const std::function<void(double)>& progress) {
    std::vector<FlowRim> rims(static_cast<std::size_t>(cut.count()));
    for (std::int64_t down = 0; down < cut.down(); ++down) {
        progress(static_cast<double>(down) / static_cast<double>(cut.down()));
        const TileRows strip = tile_rows(cut, down);
        const Grid<Direction> rows = with_halo(cut, strip, directions);
        Grid<std::uint8_t> stops;
        if (barriers) stops = with_halo(cut, strip, barriers);
        in_parallel(strip.tiles, threads, [&](std::int64_t along) {
            const std::int64_t number = strip.first_tile + along;
            rims[static_cast<std::size_t>(number)] =
                sum_alone(rows, barriers ? &stops : nullptr, strip.within(cut.tile(number))).rim;
        });
    }
    return join_flows(cut, rims);
}

Grid<double> stored_sums(const TileCut& cut, const TileRows& strip, const Grid<Direction>& directions,
                         const Grid<std::uint8_t>* barriers, const Arrivals& arrivals) {
    Grid<double> sums({cut.shape().columns, strip.rows, cut.shape().cell_m}, Unset{});
    in_parallel_here(strip.tiles, [&](std::int64_t along) {
        const std::int64_t number = strip.first_tile + along;
        const Tile tile = cut.tile(number), own = strip.within_own(tile);
        const Summed summed = sum_alone(directions, barriers, strip.within(tile));
        put_patch(summed.sums, own, sums);
        add_arrivals(summed.ways, summed.rim, arrivals[static_cast<std::size_t>(number)], &sums(own.row, own.column),
                     sums.columns());
    });
    return sums;
}

}  // namespace soilhold::terrain
