#include "terrain/stored_directions.h"

#include <tbb/enumerable_thread_specific.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "terrain/flat_agreement.h"
#include "terrain/tile_flats.h"
#include "terrain/tile_rows.h"

namespace soilhold::terrain {

struct StoredDirections::Working {
    Working(const Shape& shape, const ByteStore& to, const ByteStore& open_flats, const Tiling& tiling)
        : cut(shape, tiling.side),
          threads(tiling.threads),
          directions(shape, to),
          records(cut.count(), open_flats),
          rims(static_cast<std::size_t>(cut.count())),
          open(rims.size(), 0) {}

    TileCut cut;
    int threads;
    StoredGrid<Direction> directions;
    TileRecords records;
    std::vector<FlatRim> rims;
    std::vector<std::uint8_t> open;  ///< tiles that have open flats
    std::int64_t next = 0;           ///< row of tiles that comes next
    Grid<float> waiting;             ///< the row of tiles before it, with its halo, but for the row below
    tbb::enumerable_thread_specific<FlatScratch> scratch;

    /// Directs the row of tiles before the next.
    void direct() {
        const TileRows strip = tile_rows(cut, next - 1);
        Grid<Direction> rows({cut.shape().columns, strip.rows, cut.shape().cell_m}, Unset{});
        in_parallel(strip.tiles, threads, [&](std::int64_t along) {
            const std::int64_t number = strip.first_tile + along;
            const Tile tile = cut.tile(number);
            TileFlats flats = direct_tile(cut_patch(waiting, strip.within(tile), no_value), &rows(0, tile.column),
                                          rows.columns(), scratch.local());
            const auto at = static_cast<std::size_t>(number);
            open[at] = flats.open.empty() ? 0 : 1;
            if (open[at]) records.put(number, flats.open, flats.ends, flats.owner);
            rims[at] = std::move(flats.rim);
        });
        directions.write(strip.row, rows);
    }

    TileFlats kept(std::int64_t number) const {
        const Tile tile = cut.tile(number);
        TileFlats flats;
        flats.rows = tile.rows;
        flats.columns = tile.columns;
        records.get(number, flats.open, flats.ends, flats.owner);
        flats.rim = rims[static_cast<std::size_t>(number)];
        return flats;
    }

    std::optional<FlatRim> relax(std::int64_t number, const FlatRim& halo) {
        TileFlats flats = kept(number);
        if (!relax_open_flats(flats, halo, scratch.local())) return std::nullopt;
        records.put(number, flats.open, flats.ends, flats.owner);
        return std::move(flats.rim);
    }

    void settle(std::int64_t down) {
        const TileRows strip = tile_rows(cut, down, 1, 0);
        const auto begin = open.begin() + strip.first_tile;
        if (std::count(begin, begin + strip.tiles, 1) == 0) return;
        Grid<Direction> rows = with_halo(cut, strip, directions.reader());
        in_parallel(strip.tiles, threads, [&](std::int64_t along) {
            const std::int64_t number = strip.first_tile + along;
            if (!open[static_cast<std::size_t>(number)]) return;
            settle_open_flats(kept(number), flat_halo(cut, number, rims), &rows(0, cut.tile(number).column),
                              rows.columns(), scratch.local());
        });
        directions.write(strip.row, rows);
    }
};

StoredDirections::StoredDirections(const Shape& shape, const ByteStore& directions, const ByteStore& open_flats,
                                   const Tiling& tiling)
    : working_(std::make_unique<Working>(shape, directions, open_flats, tiling)) {}

StoredDirections::~StoredDirections() = default;

void StoredDirections::add(const Grid<float>& filled) {
    Working& work = *working_;
    const TileRows strip = tile_rows(work.cut, work.next);
    Grid<float> rows({filled.columns(), strip.count, filled.shape().cell_m}, Unset{});
    const std::int64_t above = strip.row - strip.first;
    for (std::int64_t r = 0; r < strip.rows; ++r) std::ranges::copy(filled.row(r), rows.row(above + r).begin());
    if (work.next > 0) {
        std::ranges::copy(filled.row(0), work.waiting.row(work.waiting.rows() - 1).begin());
        work.direct();
        std::ranges::copy(std::as_const(work.waiting).row(work.waiting.rows() - 2), rows.row(0).begin());
    }
    work.waiting = std::move(rows);
    ++work.next;
    if (work.next < work.cut.down()) return;
    work.direct();
    work.waiting = {};
}

void StoredDirections::finish(const std::function<void(double)>& progress) {
    Working& work = *working_;
    progress(0);
    agree_on_flats(work.cut, work.rims, work.open, work.threads,
                   [&](std::int64_t number, const FlatRim& halo) { return work.relax(number, halo); });
    for (std::int64_t down = 0; down < work.cut.down(); ++down) {
        progress(0.5 + 0.5 * static_cast<double>(down) / static_cast<double>(work.cut.down()));
        work.settle(down);
    }
    work.rims = {};
}

StoredGrid<Direction> StoredDirections::directions() const { return working_->directions; }

}  // namespace soilhold::terrain
