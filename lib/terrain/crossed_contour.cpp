#include "terrain/crossed_contour.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::terrain {

float crossed_contour_of(const FlowShares& shares) {
    if (!shares.any()) return 1;
    double east = 0, south = 0;
    for (std::size_t k = 0; k < 8; ++k) {
        east += static_cast<double>(shares.way[k]) * column_steps[k];
        south += static_cast<double>(shares.way[k]) * row_steps[k];
    }
    return static_cast<float>(1 / std::max(std::sqrt(east * east + south * south), 0.5));
}

Grid<float> crossed_contour(const Grid<float>& filled, const Grid<Direction>& directions, const ShareRule& rule,
                            const Tiling& tiling) {
    if (!(filled.shape() == directions.shape()))
        throw std::invalid_argument("directions need the shape of the elevations");
    Grid<float> contour(filled.shape(), Unset{});
    const TileCut cut(filled.shape(), tiling.side);
    in_parallel(cut.count(), tiling.threads, [&](std::int64_t t) {
        const Tile tile = cut.tile(t);
        for (std::int64_t r = tile.row; r < tile.row + tile.rows; ++r)
            for (std::int64_t c = tile.column; c < tile.column + tile.columns; ++c) {
                const Direction direction = directions(r, c);
                FlowShares shares = rule(neighbours_of(filled, r, c), direction);
                if (!shares.any()) shares = single_flow_shares(direction);
                contour(r, c) = direction == Direction::none ? no_value : crossed_contour_of(shares);
            }
    });
    return contour;
}

}  // namespace soilhold::terrain
