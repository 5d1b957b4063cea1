#include "terrain/flat_agreement.h"

#include <cstddef>
#include <utility>

namespace soilhold::terrain {
namespace {

// The tiles around those that changed, themselves left out unless a neighbour changed too.
std::vector<std::int64_t> beside(const TileCut& cut, const std::vector<std::uint8_t>& changed,
                                 const std::vector<std::uint8_t>& open) {
    std::vector<std::int64_t> next;
    for (std::int64_t t = 0; t < cut.count(); ++t) {
        if (!open[static_cast<std::size_t>(t)]) continue;
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

FlatRim flat_halo(const TileCut& cut, std::int64_t number, const std::vector<FlatRim>& rims) {
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

void agree_on_flats(const TileCut& cut, std::vector<FlatRim>& rims, const std::vector<std::uint8_t>& open, int threads,
                    const std::function<std::optional<FlatRim>(std::int64_t number, const FlatRim& halo)>& relax) {
    std::vector<std::uint8_t> changed(rims.size(), 1);
    for (auto turn = beside(cut, changed, open); !turn.empty(); turn = beside(cut, changed, open)) {
        std::vector<std::optional<FlatRim>> now(turn.size());
        in_parallel(static_cast<std::int64_t>(turn.size()), threads, [&](std::int64_t i) {
            const auto at = static_cast<std::size_t>(i);
            now[at] = relax(turn[at], flat_halo(cut, turn[at], rims));
        });
        changed.assign(rims.size(), 0);
        for (std::size_t i = 0; i < turn.size(); ++i) {
            if (!now[i]) continue;
            const auto at = static_cast<std::size_t>(turn[i]);
            changed[at] = 1;
            rims[at] = std::move(*now[i]);
        }
    }
}

}  // namespace soilhold::terrain
