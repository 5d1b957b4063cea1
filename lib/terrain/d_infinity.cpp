#include "terrain/d_infinity.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace soilhold::terrain {
namespace {

struct Facet {
    std::size_t straight;
    std::size_t corner;
};

// Ways are E, S, W, N, SE, SW, NW, NE.
constexpr std::array<Facet, 8> facets{{{0, 4}, {1, 4}, {1, 5}, {2, 5}, {2, 6}, {3, 6}, {3, 7}, {0, 7}}};

struct Fall {
    double slope = 0;   ///< metres a cell width
    double corner = 0;  ///< the corner's share of the water, before it is an angle: s2/s1
};

Fall steepest_in(double e0, double e1, double e2) {
    const double s1 = e0 - e1, s2 = e1 - e2;
    if (!std::isfinite(s1 + s2)) {
        if (std::isfinite(s1)) return {s1, 0};
        if (std::isfinite(e0 - e2)) return {(e0 - e2) / std::numbers::sqrt2, 1};
        return {};
    }
    if (s2 <= 0) return {s1, 0};
    if (s2 >= s1) return {(e0 - e2) / std::numbers::sqrt2, 1};
    return {std::sqrt(s1 * s1 + s2 * s2), s2 / s1};
}

}  // namespace

FlowShares d_infinity_shares(const Neighbours& cell) {
    FlowShares shares;
    if (!std::isfinite(cell.here)) return shares;
    Fall most;
    Facet way{};
    for (const Facet& facet : facets) {
        const Fall fall = steepest_in(cell.here, cell.around[facet.straight], cell.around[facet.corner]);
        if (fall.slope > most.slope) most = fall, way = facet;
    }
    if (!(most.slope > 0)) return shares;
    const double corner = std::atan(most.corner) / (std::numbers::pi / 4);
    shares.way[way.straight] = static_cast<float>(1 - corner);
    shares.way[way.corner] = static_cast<float>(corner);
    return shares;
}

}  // namespace soilhold::terrain
