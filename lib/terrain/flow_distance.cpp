#include "terrain/flow_distance.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace soilhold::terrain {

namespace {

// No distance is negative: these mark what isn't one.
constexpr float not_seen = -1, under_way = -2;

}  // namespace

Grid<float> flow_distance(const Grid<Direction>& directions, const Grid<std::uint8_t>& channels) {
    const Shape& shape = directions.shape();
    if (channels.shape() != shape) throw std::invalid_argument("directions and channels must be of one shape");
    Grid<float> distance(shape, not_seen);
    const std::span<float> values = distance.values();
    const std::span<const Direction> ways = directions.values();
    const std::span<const std::uint8_t> channel = channels.values();
    const auto offsets = way_offsets(shape.columns);
    const double straight = shape.cell_m, across = shape.cell_m * std::numbers::sqrt2;
    std::vector<std::size_t> path;
    for (std::size_t start = 0; start < values.size(); ++start) {
        std::size_t at = start;
        double end = 0;
        while (values[at] == not_seen) {
            if (ways[at] == Direction::none || (ways[at] == Direction::outlet && channel[at] == 0)) {
                values[at] = no_value;
            } else if (channel[at] != 0) {
                values[at] = 0;
            } else {
                values[at] = under_way;
                path.push_back(at);
                at = static_cast<std::size_t>(static_cast<std::int64_t>(at) +
                                              offsets[static_cast<std::size_t>(ways[at]) - 1]);
                if (at >= values.size()) throw std::invalid_argument("directions lead out of the grid");
                if (values[at] == under_way) throw std::invalid_argument("directions run in a circle");
            }
        }
        end = static_cast<double>(values[at]);
        for (; !path.empty(); path.pop_back()) {
            const std::size_t cell = path.back();
            end += diagonal(ways[cell]) ? across : straight;
            values[cell] = static_cast<float>(end);
        }
    }
    return distance;
}

}  // namespace soilhold::terrain
