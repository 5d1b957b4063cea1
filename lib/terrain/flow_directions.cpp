#include "terrain/flow_directions.h"

#include <tbb/enumerable_thread_specific.h>

#include <cstdint>
#include <optional>
#include <vector>

#include "terrain/flat_agreement.h"
#include "terrain/tile_flats.h"

namespace soilhold::terrain {
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
    std::vector<FlatRim> rims(count);
    std::vector<std::uint8_t> open(count);
    for (std::size_t t = 0; t < count; ++t) {
        rims[t] = flats[t].rim;
        open[t] = flats[t].open.empty() ? 0 : 1;
    }
    agree_on_flats(cut, rims, open, tiling.threads, [&](std::int64_t t, const FlatRim& halo) {
        auto& own = flats[static_cast<std::size_t>(t)];
        return relax_open_flats(own, halo, scratch.local()) ? std::optional<FlatRim>(own.rim) : std::nullopt;
    });
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const auto& own = flats[static_cast<std::size_t>(t)];
        if (own.open.empty()) return;
        settle_open_flats(own, flat_halo(cut, t, rims), first_cell(t), directions.columns(), scratch.local());
    });
    return directions;
}

}  // namespace soilhold::terrain
