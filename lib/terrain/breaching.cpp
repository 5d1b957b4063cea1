#include "terrain/breaching.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace soilhold::terrain {

namespace {

constexpr float infinity = std::numeric_limits<float>::infinity();

// 1 for each cell with nodata among its neighbours; those at the rim of the surroundings are never asked about.
std::vector<std::uint8_t> outlets_of(const std::vector<float>& height, std::int64_t stride) {
    const auto size = static_cast<std::int64_t>(height.size());
    std::vector<std::uint8_t> outlet(height.size(), 0), beside(height.size(), 0);
    const float* z = height.data();
    for (std::int64_t i = 1; i + 1 < size; ++i)
        beside[static_cast<std::size_t>(i)] = (z[i - 1] == infinity) | (z[i] == infinity) | (z[i + 1] == infinity);
    const std::uint8_t* b = beside.data();
    for (std::int64_t i = stride; i + stride < size; ++i)
        outlet[static_cast<std::size_t>(i)] = b[i - stride] | b[i] | b[i + stride];
    return outlet;
}

// Whether no neighbour is lower, and none of the earlier ones level: else another cell is the first of the bottom.
bool may_be_first(const float* z, std::int64_t stride) {
    const float own = *z;
    return (z[-stride - 1] > own) & (z[-stride] > own) & (z[-stride + 1] > own) & (z[-1] > own) & (z[1] >= own) &
           (z[stride - 1] >= own) & (z[stride] >= own) & (z[stride + 1] >= own) & (own < infinity);
}

}  // namespace

std::int64_t cut_halo(const CutLimits& limits, double cell_m) {
    const CutSearch check({}, limits, cell_m);
    return static_cast<std::int64_t>(limits.longest_m / cell_m) + 1;
}

Surroundings surroundings_of(const Grid<float>& rows, std::int64_t first, const Shape& whole, const Tile& tile,
                             std::int64_t halo) {
    Surroundings ground{tile, halo, {}};
    const std::int64_t north = tile.row - halo, west = tile.column - halo, down = tile.rows + 2 * halo;
    ground.height.assign(static_cast<std::size_t>(down * ground.stride()), no_value);
    const std::int64_t from = std::max<std::int64_t>(0, west), to = std::min(whole.columns, west + ground.stride());
    for (std::int64_t r = std::max<std::int64_t>(0, north); r < std::min(whole.rows, north + down); ++r) {
        const auto row = rows.row(r - first);
        std::copy(row.begin() + from, row.begin() + to,
                  ground.height.begin() + (r - north) * ground.stride() + from - west);
    }
    return ground;
}

TileCuts find_cuts(Surroundings ground, const CutLimits& limits, double cell_m) {
    for (float& z : ground.height)
        if (!std::isfinite(z)) z = infinity;
    const std::int64_t stride = ground.stride();
    const std::vector<std::uint8_t> outlet = outlets_of(ground.height, stride);
    CutSearch search({ground.height.data(), outlet.data(), stride}, limits, cell_m);
    TileCuts found;
    for (std::int64_t row = 0; row < ground.tile.rows; ++row)
        for (std::int64_t column = 0; column < ground.tile.columns; ++column) {
            const std::int64_t place = (row + ground.halo) * stride + column + ground.halo;
            const float* z = ground.height.data() + place;
            if (!may_be_first(z, stride) || !search.bottom_at(place)) continue;
            ++found.pits;
            const CutSearch::Cut& cut = search.cut();
            if (cut.cells.empty()) continue;
            ++found.cuts;
            found.squared_reach = std::max(found.squared_reach, cut.squared_reach);
            found.deepest_m = std::max(found.deepest_m, cut.depth_m);
            for (const std::int64_t cell : cut.cells)
                found.cells.push_back({static_cast<std::int32_t>(cell / stride + ground.tile.row - ground.halo),
                                       static_cast<std::int32_t>(cell % stride + ground.tile.column - ground.halo),
                                       *z});
        }
    return found;
}

Cuts join_cuts(std::vector<TileCuts> tiles, const Shape& whole, int threads) {
    Cuts joined;
    std::int64_t squared_reach = 0;
    // By row first, by counting: each row is then a short list of its own.
    std::vector<std::size_t> begin(static_cast<std::size_t>(whole.rows) + 1, 0);
    for (const TileCuts& tile : tiles) {
        joined.report.cuts += tile.cuts;
        joined.report.pits_left += tile.pits - tile.cuts;
        joined.report.deepest_m = std::max(joined.report.deepest_m, static_cast<double>(tile.deepest_m));
        squared_reach = std::max(squared_reach, tile.squared_reach);
        for (const LoweredCell& cell : tile.cells) ++begin[static_cast<std::size_t>(cell.row) + 1];
    }
    joined.report.longest_m = std::sqrt(static_cast<double>(squared_reach)) * whole.cell_m;
    for (std::size_t r = 1; r < begin.size(); ++r) begin[r] += begin[r - 1];
    joined.cells.resize(begin.back());
    std::vector<std::size_t> next = begin;
    for (TileCuts& tile : tiles) {
        for (const LoweredCell& cell : tile.cells) joined.cells[next[static_cast<std::size_t>(cell.row)]++] = cell;
        tile.cells = {};
    }
    const auto cell_at = [&](std::size_t place) { return joined.cells.begin() + static_cast<std::ptrdiff_t>(place); };
    in_parallel(whole.rows, threads, [&](std::int64_t row) {
        const auto r = static_cast<std::size_t>(row);
        std::sort(cell_at(begin[r]), cell_at(begin[r + 1]), [](const LoweredCell& a, const LoweredCell& b) {
            return std::pair(a.column, a.height_m) < std::pair(b.column, b.height_m);
        });
    });
    const auto same_place = [](const LoweredCell& a, const LoweredCell& b) {
        return a.row == b.row && a.column == b.column;
    };
    joined.cells.erase(std::unique(joined.cells.begin(), joined.cells.end(), same_place), joined.cells.end());
    joined.report.cells_lowered = static_cast<std::int64_t>(joined.cells.size());
    return joined;
}

std::int64_t lower_cells(std::span<const LoweredCell> cells, std::int64_t first, Grid<float>& rows) {
    const auto by_row = [](const LoweredCell& cell, std::int64_t row) { return cell.row < row; };
    std::int64_t steps = 0;
    for (auto cell = std::lower_bound(cells.begin(), cells.end(), first, by_row);
         cell != cells.end() && cell->row < first + rows.rows(); ++cell) {
        float& height = rows(cell->row - first, cell->column);
        steps += std::llrint((static_cast<double>(height) - static_cast<double>(cell->height_m)) * 16777216.0);
        height = cell->height_m;
    }
    return steps;
}

double volume_of(std::int64_t steps, double cell_m) {
    return static_cast<double>(steps) / 16777216.0 * cell_m * cell_m;
}

BreachReport breach_depressions(Grid<float>& elevation, const CutLimits& limits, const Tiling& tiling) {
    const Shape whole = elevation.shape();
    const TileCut cut(whole, tiling.side);
    const std::int64_t halo = cut_halo(limits, whole.cell_m);
    std::vector<TileCuts> tiles(static_cast<std::size_t>(cut.count()));
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        tiles[static_cast<std::size_t>(t)] =
            find_cuts(surroundings_of(elevation, 0, whole, cut.tile(t), halo), limits, whole.cell_m);
    });
    Cuts joined = join_cuts(std::move(tiles), whole, tiling.threads);
    joined.report.volume_m3 = volume_of(lower_cells(joined.cells, 0, elevation), whole.cell_m);
    return joined.report;
}

}  // namespace soilhold::terrain
