#include "terrain/flow_directions.h"

#include <tbb/enumerable_thread_specific.h>

#include <vector>

#include "terrain/tile_flats.h"

namespace soilhold::terrain {
namespace {

FlatRim halo_of(const TileCut& cut, std::int64_t number, const std::vector<FlatRim>& rims) {
    const Tile tile = cut.tile(number);
    FlatRim halo(rim_cells(tile.rows + 2, tile.columns + 2));
    along_halo(cut, number, [&](std::int64_t place, std::int64_t other, std::int64_t rim) {
        const auto& from = rims[static_cast<std::size_t>(other)];
        const auto to = static_cast<std::size_t>(place), at = static_cast<std::size_t>(rim);
        halo.height[to] = from.height[at];
        halo.toward[to] = from.toward[at];
        halo.away[to] = from.away[at];
    });
    return halo;
}

// The tiles around those that changed, themselves left out unless a neighbour changed too.
std::vector<std::int64_t> beside(const TileCut& cut, const std::vector<std::uint8_t>& changed,
                                 const std::vector<TileFlats>& flats) {
    std::vector<std::int64_t> next;
    for (std::int64_t t = 0; t < cut.count(); ++t) {
        if (flats[static_cast<std::size_t>(t)].open.empty()) continue;
        const std::int64_t down = t / cut.across(), along = t % cut.across();
        bool any = false;
        for (std::size_t k = 0; k < 8; ++k) {
            const std::int64_t d = down + row_steps[k], a = along + column_steps[k];
            if (d < 0 || a < 0 || d >= cut.down() || a >= cut.across()) continue;
            any = any || changed[static_cast<std::size_t>(d * cut.across() + a)];
        }
        if (any) next.push_back(t);
    }
    return next;
}

}  // namespace

Grid<Direction> flow_directions(const Grid<float>& filled, const Tiling& tiling) {
    const TileCut cut(filled.shape(), tiling.side);
    const auto count = static_cast<std::size_t>(cut.count());
    Grid<Direction> directions(filled.shape(), Unset{});
    std::vector<TileFlats> flats(count);
    tbb::enumerable_thread_specific<FlatScratch> scratch;
    const auto first_cell = [&](std::int64_t t) { return &directions(cut.tile(t).row, cut.tile(t).column); };
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        flats[static_cast<std::size_t>(t)] =
            direct_tile(cut_patch(filled, cut.tile(t), no_value), first_cell(t), directions.columns(), scratch.local());
    });
    // Rounds: each tile reads what its neighbours knew after the round before, until no rim changes.
    std::vector<FlatRim> rims(count);
    for (std::size_t t = 0; t < count; ++t) rims[t] = flats[t].rim;
    std::vector<std::uint8_t> changed(count, 1);
    for (auto turn = beside(cut, changed, flats); !turn.empty(); turn = beside(cut, changed, flats)) {
        changed.assign(count, 0);
        in_parallel(static_cast<std::int64_t>(turn.size()), tiling.threads, [&](std::int64_t i) {
            const std::int64_t t = turn[static_cast<std::size_t>(i)];
            const auto at = static_cast<std::size_t>(t);
            changed[at] = relax_open_flats(flats[at], halo_of(cut, t, rims), scratch.local());
        });
        for (const std::int64_t t : turn)
            if (changed[static_cast<std::size_t>(t)])
                rims[static_cast<std::size_t>(t)] = flats[static_cast<std::size_t>(t)].rim;
    }
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const auto& own = flats[static_cast<std::size_t>(t)];
        if (own.open.empty()) return;
        settle_open_flats(own, halo_of(cut, t, rims), first_cell(t), directions.columns(), scratch.local());
    });
    return directions;
}

}  // namespace soilhold::terrain
