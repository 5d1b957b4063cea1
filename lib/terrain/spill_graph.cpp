#include "terrain/spill_graph.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

namespace soilhold::terrain {
namespace {

constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

std::uint32_t root_of(std::vector<std::uint32_t>& parent, std::uint32_t node) {
    while (parent[node] != node) {
        parent[node] = parent[parent[node]];
        node = parent[node];
    }
    return node;
}

}  // namespace

SpillLevels spill_levels(std::uint32_t basins, std::uint32_t outlets, std::vector<Saddle> saddles) {
    constexpr float infinity = std::numeric_limits<float>::infinity();
    SpillLevels result;
    result.level.assign(basins, infinity);
    result.outlet.assign(basins, none);
    for (std::uint32_t o = 0; o < outlets; ++o) {
        result.level[o] = -infinity;
        result.outlet[o] = o;
    }
    std::vector<std::uint32_t> parent(basins), size(basins, 1);
    std::iota(parent.begin(), parent.end(), 0U);
    // A basin swallowed by another before either knew an outlet waits for the other's answer.
    std::vector<std::pair<std::uint32_t, std::uint32_t>> waiting;
    // The outlet that what is joined under a root drains to; roots only.
    std::vector<std::uint32_t> drains = result.outlet;

    std::sort(saddles.begin(), saddles.end(), [](const Saddle& x, const Saddle& y) { return x.height < y.height; });
    for (const auto& saddle : saddles) {
        std::uint32_t a = root_of(parent, saddle.a), b = root_of(parent, saddle.b);
        if (a == b) continue;
        if (size[a] > size[b]) std::swap(a, b);
        const std::uint32_t out_a = drains[a], out_b = drains[b];
        if (out_a != none && out_b != none) {
            result.between.push_back({out_a, out_b, saddle.height});
        } else if (out_a != none || out_b != none) {
            const std::uint32_t dry = out_a == none ? a : b;
            result.level[dry] = saddle.height;
            result.outlet[dry] = out_a == none ? out_b : out_a;
        } else {
            waiting.emplace_back(a, b);
        }
        drains[b] = out_b != none ? out_b : out_a;
        parent[a] = b;
        size[b] += size[a];
    }
    for (auto pair = waiting.rbegin(); pair != waiting.rend(); ++pair) {
        result.level[pair->first] = result.level[pair->second];
        result.outlet[pair->first] = result.outlet[pair->second];
    }
    return result;
}

}  // namespace soilhold::terrain
