#include "terrain/accumulation.h"

#include <cmath>
#include <optional>
#include <stdexcept>
#include <vector>

#include "terrain/tile_flow.h"

namespace soilhold::terrain {
namespace {

constexpr double steps_a_unit = 1048576.0;    // 2^20
constexpr double most_in_all = 8589934592.0;  // 2^33, so that 2^53 steps are not passed

double whole_steps(float weight) {
    if (std::isnan(weight)) return 0;
    if (!(weight >= 0) || std::isinf(weight)) throw std::invalid_argument("a weight must be 0 or more, and finite");
    return std::nearbyint(static_cast<double>(weight) * steps_a_unit) / steps_a_unit;
}

Ways ways_in(const Grid<Direction>& directions, const AccumulationInputs& inputs, const Tile& tile) {
    const auto patch = cut_patch(directions, tile, Direction::none);
    if (!inputs.barriers) return ways_of(patch, nullptr);
    const auto barriers = cut_patch(*inputs.barriers, tile, std::uint8_t{0});
    return ways_of(patch, &barriers);
}

// What the cells of a tile bring; their sum is returned.
double bring(const Grid<Direction>& directions, const AccumulationInputs& inputs, const Tile& tile,
             Patch<double>& sums) {
    double all = 0;
    for (std::int64_t r = 0; r < tile.rows; ++r) {
        const Direction* direction = &directions(tile.row + r, tile.column);
        double* to = &sums(r, 0);
        for (std::int64_t c = 0; c < tile.columns; ++c) to[c] = direction[c] == Direction::none ? 0.0 : 1.0;
        if (!inputs.weights) continue;
        const float* weight = &(*inputs.weights)(tile.row + r, tile.column);
        for (std::int64_t c = 0; c < tile.columns; ++c) {
            if (direction[c] != Direction::none) to[c] = whole_steps(weight[c]);
            all += to[c];
        }
    }
    return all;
}

}  // namespace

Grid<double> accumulate(const Grid<Direction>& directions, const AccumulationInputs& inputs, const Tiling& tiling) {
    const Shape shape = directions.shape();
    if ((inputs.weights && !(inputs.weights->shape() == shape)) ||
        (inputs.barriers && !(inputs.barriers->shape() == shape)))
        throw std::invalid_argument("weights and barriers need the shape of the directions");
    const TileCut cut(shape, tiling.side);
    Grid<double> sums(shape, Unset{});
    std::vector<FlowRim> rims(static_cast<std::size_t>(cut.count()));
    std::vector<double> brought(rims.size(), 0);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        Patch<double> own(tile.rows, tile.columns, 0);
        brought[static_cast<std::size_t>(t)] = bring(directions, inputs, tile, own);
        rims[static_cast<std::size_t>(t)] = accumulate_tile(ways_in(directions, inputs, tile), own);
        put_patch(own, tile, sums);
    });
    double all = 0;
    for (const double part : brought) all += part;
    if (all > most_in_all) throw std::invalid_argument("the weights come to more than 2^33 in all");
    const auto arrives = join_flows(cut, rims);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        add_arrivals(ways_in(directions, inputs, tile), rims[static_cast<std::size_t>(t)],
                     arrives[static_cast<std::size_t>(t)], &sums(tile.row, tile.column), sums.columns());
    });
    return sums;
}

}  // namespace soilhold::terrain
