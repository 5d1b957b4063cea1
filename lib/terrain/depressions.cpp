#include "terrain/depressions.h"

#include <algorithm>
#include <limits>

#include "terrain/spill_graph.h"

namespace soilhold::terrain {
namespace {

// Saddles across the seams of tiles: between each rim cell and the neighbours it has in later tiles.
class Seams {
  public:
    Seams(const TileCut& cut, const std::vector<const FloodRim*>& rims, const std::vector<std::uint32_t>& first,
          std::vector<Saddle>& saddles)
        : cut_(cut), rims_(rims), first_(first), saddles_(saddles) {}

    void of_tile(std::int64_t number) {
        const Tile tile = cut_.tile(number);
        const std::int64_t across = cut_.across(), down = number / across, along = number % across;
        const std::int64_t last_row = tile.rows - 1, last_column = tile.columns - 1;
        if (along + 1 < across)
            for (std::int64_t r = 0; r <= last_row; ++r)
                for (std::int64_t dr = -1; dr <= 1; ++dr) pair(number, r, last_column, number + 1, r + dr, 0);
        if (down + 1 == cut_.down()) return;
        for (std::int64_t c = 0; c <= last_column; ++c)
            for (std::int64_t dc = -1; dc <= 1; ++dc) pair(number, last_row, c, number + across, 0, c + dc);
        if (along + 1 < across) pair(number, last_row, last_column, number + across + 1, 0, 0);
        if (along > 0) pair(number, last_row, 0, number + across - 1, 0, cut_.tile(number + across - 1).columns - 1);
    }

  private:
    void pair(std::int64_t from, std::int64_t row, std::int64_t column, std::int64_t to, std::int64_t to_row,
              std::int64_t to_column) {
        const Tile there = cut_.tile(to);
        if (to_row < 0 || to_column < 0 || to_row >= there.rows || to_column >= there.columns) return;
        const Tile here = cut_.tile(from);
        const auto p = static_cast<std::size_t>(rim_place(here.rows, here.columns, row, column));
        const auto q = static_cast<std::size_t>(rim_place(there.rows, there.columns, to_row, to_column));
        const auto &rim = *rims_[static_cast<std::size_t>(from)], &other = *rims_[static_cast<std::size_t>(to)];
        const std::uint32_t a = node(from, rim.outlet[p]), b = node(to, other.outlet[q]);
        if (a == b) return;
        const float height = std::max(rim.height[p], other.height[q]);
        if (!saddles_.empty() && saddles_.back().a == a && saddles_.back().b == b)
            saddles_.back().height = std::min(saddles_.back().height, height);
        else
            saddles_.push_back({a, b, height});
    }
    std::uint32_t node(std::int64_t tile, std::uint32_t outlet) const {
        return outlet == 0 ? 0 : first_[static_cast<std::size_t>(tile)] + outlet;
    }

    const TileCut& cut_;
    const std::vector<const FloodRim*>& rims_;
    const std::vector<std::uint32_t>& first_;
    std::vector<Saddle>& saddles_;
};

}  // namespace

std::vector<std::vector<float>> join_rims(const TileCut& cut, const std::vector<const FloodRim*>& rims) {
    // Node 0 is the outside; outlet o of a tile is node first + o, o from 1.
    std::vector<std::uint32_t> first;
    std::uint32_t nodes = 1;
    for (const auto* rim : rims) {
        first.push_back(nodes - 1);
        nodes += rim->outlets - 1;
    }
    std::vector<Saddle> saddles;
    Seams seams(cut, rims, first, saddles);
    for (std::int64_t t = 0; t < cut.count(); ++t) {
        const auto at = static_cast<std::size_t>(t);
        for (const auto& saddle : rims[at]->between)
            saddles.push_back(
                {saddle.a ? first[at] + saddle.a : 0, saddle.b ? first[at] + saddle.b : 0, saddle.height});
        seams.of_tile(t);
    }
    const auto levels = spill_levels(nodes, 1, std::move(saddles));
    std::vector<std::vector<float>> result(rims.size());
    for (std::size_t t = 0; t < rims.size(); ++t) {
        result[t].push_back(-std::numeric_limits<float>::infinity());
        const auto begin = levels.level.begin() + first[t] + 1;
        result[t].insert(result[t].end(), begin, begin + (rims[t]->outlets - 1));
    }
    return result;
}

FillReport report_of(const std::vector<Raised>& tiles, double cell_m) {
    FillReport report;
    std::int64_t height = 0;
    for (const auto& part : tiles) {
        report.cells_raised += part.cells;
        report.pits += part.pits;
        report.deepest_m = std::max(report.deepest_m, static_cast<double>(part.deepest_m));
        height += part.height;
    }
    report.volume_m3 = static_cast<double>(height) / 16777216.0 * cell_m * cell_m;
    return report;
}

FillReport fill_depressions(Grid<float>& elevation, const Tiling& tiling) {
    const TileCut cut(elevation.shape(), tiling.side);
    const auto count = static_cast<std::size_t>(cut.count());
    std::vector<TileFlood> floods(count);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        floods[static_cast<std::size_t>(t)] = flood_tile(cut_patch(elevation, cut.tile(t), no_value));
    });
    std::vector<const FloodRim*> rims;
    for (const auto& flood : floods) rims.push_back(&flood.rim);
    const auto levels = join_rims(cut, rims);

    std::vector<Raised> raised(count);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const auto at = static_cast<std::size_t>(t);
        const Tile tile = cut.tile(t);
        raised[at] = settle_basins(floods[at], levels[at], &elevation(tile.row, tile.column), elevation.columns());
        floods[at] = {};
    });
    return report_of(raised, elevation.shape().cell_m);
}

}  // namespace soilhold::terrain
