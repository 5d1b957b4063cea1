#include "terrain/tile_flood.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <memory>
#include <numeric>
#include <span>
#include <utility>

#include "terrain/processor_clones.h"

namespace soilhold::terrain {
namespace {

// Heights are compared as whole numbers of the same order as the floats; nodata stands below all, the halo above.
constexpr std::int32_t outside = std::numeric_limits<std::int32_t>::min();
constexpr std::int32_t wall = std::numeric_limits<std::int32_t>::max();
constexpr float infinity = std::numeric_limits<float>::infinity();

std::int32_t rank_of(float height) {
    const auto bits = std::bit_cast<std::int32_t>(height + 0.0F);  // -0 and +0 are one height
    const std::int32_t rank = bits ^ static_cast<std::int32_t>(static_cast<std::uint32_t>(bits >> 31) >> 1);
    return (bits & 0x7FFFFFFF) >= 0x7F800000 ? outside : rank;  // by the bits: several at once then
}

float height_of(std::int32_t rank) {
    return std::bit_cast<float>(rank ^ static_cast<std::int32_t>(static_cast<std::uint32_t>(rank >> 31) >> 1));
}

// A cell's label: the number of its basin, or, with the top bit set, the cell it points to.
constexpr std::uint32_t pointing = 0x80000000U;

struct Work {
    std::int64_t rows, columns;
    std::int32_t stride;
    std::vector<std::int32_t> rank;      // as in the patch
    std::vector<std::uint32_t> label;    // as in the patch
    std::array<std::int32_t, 8> around;  // offsets of the neighbours, in reading order: the first four are earlier

    std::int32_t index(std::int64_t row, std::int64_t column) const {
        return static_cast<std::int32_t>((row + 1) * stride + column + 1);
    }
    std::int32_t rank_at(std::int32_t cell) const { return rank[static_cast<std::size_t>(cell)]; }
    std::uint32_t& label_at(std::int32_t cell) { return label[static_cast<std::size_t>(cell)]; }
};

SOILHOLD_PROCESSOR_CLONES
void point_inner_cells(Work& work) {
    const std::int32_t s = work.stride;
    for (std::int64_t row = 1; row + 1 < work.rows; ++row) {
        const std::int32_t first = work.index(row, 0);
        const std::int32_t* here = work.rank.data() + first;
        const std::int32_t *north = here - s, *south = here + s;
        std::uint32_t* label = work.label.data() + first;
        for (std::int32_t c = 1; c < static_cast<std::int32_t>(work.columns) - 1; ++c) {
            std::int32_t lowest = here[c], way = 0;
            const auto take_earlier = [&](std::int32_t rank, std::int32_t offset) {
                const bool lower = rank <= lowest;
                lowest = lower ? rank : lowest;
                way = lower ? offset : way;
            };
            const auto take_later = [&](std::int32_t rank, std::int32_t offset) {
                const bool lower = rank < lowest;
                lowest = lower ? rank : lowest;
                way = lower ? offset : way;
            };
            take_earlier(north[c - 1], -s - 1);
            take_earlier(north[c], -s);
            take_earlier(north[c + 1], -s + 1);
            take_earlier(here[c - 1], -1);
            take_later(here[c + 1], 1);
            take_later(south[c - 1], s - 1);
            take_later(south[c], s);
            take_later(south[c + 1], s + 1);
            const std::uint32_t target = static_cast<std::uint32_t>(first + c + way) | pointing;
            label[c] = here[c] == outside ? 0U : target;
        }
    }
}

// The lowest cells along the rim become the basins after 0, and outlets.
void point_rim_cells(Work& work, std::vector<float>& bottom) {
    along_rim(work.rows, work.columns, [&](std::int64_t row, std::int64_t column) {
        const std::int32_t cell = work.index(row, column), own = work.rank_at(cell);
        std::int32_t lowest = own, target = cell;
        bool pit = true, drained = own == outside;
        for (std::size_t k = 0; k < 8; ++k) {
            const std::int32_t neighbour = cell + work.around[k], rank = work.rank_at(neighbour);
            drained = drained || rank == outside;
            if (k < 4 ? rank <= own : rank < own) pit = false;
            if (k < 4 ? rank > lowest : rank >= lowest) continue;
            const std::int64_t r = neighbour / work.stride - 1, c = neighbour % work.stride - 1;
            if (r < 0 || c < 0 || r >= work.rows || c >= work.columns) continue;
            if (r > 0 && c > 0 && r + 1 < work.rows && c + 1 < work.columns) continue;
            lowest = rank;
            target = neighbour;
        }
        work.label_at(cell) = drained ? 0U : static_cast<std::uint32_t>(target) | pointing;
        if (drained || target != cell) return;
        work.label_at(cell) = static_cast<std::uint32_t>(bottom.size());
        bottom.push_back(pit ? height_of(own) : infinity);
    });
}

// Follows a cell to its pit and labels the way; a pit not seen before opens the next basin.
void resolve(Work& work, std::int32_t cell, std::vector<float>& bottom) {
    std::int32_t at = cell;
    std::uint32_t label = work.label_at(at);
    while (label & pointing) {
        const auto next = static_cast<std::int32_t>(label & ~pointing);
        if (next == at) {
            label = static_cast<std::uint32_t>(bottom.size());
            bottom.push_back(height_of(work.rank_at(at)));
            work.label_at(at) = label;
            break;
        }
        at = next;
        label = work.label_at(at);
    }
    for (at = cell; work.label_at(at) & pointing;) {
        const std::uint32_t old = work.label_at(at);
        work.label_at(at) = label;
        at = static_cast<std::int32_t>(old & ~pointing);
    }
}

// A saddle between two cells as one number: its height's rank, then the first cell and which of its later neighbours.
using Crossing = std::int64_t;
constexpr Crossing no_crossing = std::numeric_limits<Crossing>::max();

Crossing crossing(std::int32_t rank_a, std::int32_t rank_b, std::int32_t cell, std::int32_t way) {
    return static_cast<Crossing>(std::max(rank_a, rank_b)) * (Crossing{1} << 32) +
           (static_cast<Crossing>(cell) * 4 + way);
}

SOILHOLD_PROCESSOR_CLONES
std::size_t count_crossings(const Work& work) {
    const std::int32_t s = work.stride;
    std::size_t count = 0;
    for (std::int64_t row = 0; row < work.rows; ++row) {
        const std::uint32_t* label = work.label.data() + work.index(row, 0);
        std::uint32_t here = 0;
        for (std::int32_t c = 0; c < static_cast<std::int32_t>(work.columns); ++c)
            here += static_cast<std::uint32_t>(label[c] != label[c + 1]) +
                    static_cast<std::uint32_t>(label[c] != label[c + s - 1]) +
                    static_cast<std::uint32_t>(label[c] != label[c + s]) +
                    static_cast<std::uint32_t>(label[c] != label[c + s + 1]);
        count += here;
    }
    return count;
}

// The lowest saddles of the tile: a minimum spanning tree of its basins (Boruvka: each group of basins takes its
// lowest crossing, groups that meet are joined, until one is left).
class SpanningSaddles {
  public:
    SpanningSaddles(const Work& work, std::uint32_t basins) : work_(work), group_(basins), lowest_(basins) {
        std::iota(group_.begin(), group_.end(), 0U);
        find_open();
    }
    std::vector<Saddle> find() {
        do {
            std::fill(lowest_.begin(), lowest_.end(), no_crossing);
            std::size_t kept = 0;
            for (std::size_t i = 0; i < count_; ++i) {
                const Open open = open_[i];
                const std::uint32_t a = group_[open.a], b = group_[open.b];
                open_[kept] = {open.crossing, a, b};  // kept only if they are two, as in find_open
                kept += a != b;
                const Crossing c = a != b ? open.crossing : no_crossing;
                lowest_[a] = std::min(lowest_[a], c);
                lowest_[b] = std::min(lowest_[b], c);
            }
            count_ = kept;
        } while (join());
        return std::move(found_);
    }

  private:
    // A crossing that may yet be the lowest of a group, and the two groups it ties.
    struct Open {
        Crossing crossing;
        std::uint32_t a, b;
    };

    // All crossings. What is none is written too and not kept: a branch would be guessed wrong too often.
    void find_open() {
        const std::int32_t s = work_.stride;
        std::vector<std::int32_t> border(static_cast<std::size_t>(work_.columns) + 1);
        const std::array<std::int32_t, 4> later{1, s - 1, s, s + 1};
        open_ = std::make_unique_for_overwrite<Open[]>(count_crossings(work_) + 1);
        std::size_t count = 0;
        for (std::int64_t row = 0; row < work_.rows; ++row) {
            const std::int32_t first = work_.index(row, 0), end = first + static_cast<std::int32_t>(work_.columns);
            std::int32_t* to = border.data();
            for (std::int32_t cell = first; cell < end; ++cell) {
                const std::uint32_t* label = work_.label.data() + cell;
                const std::uint32_t a = *label;
                *to = cell;
                to += ((a ^ label[1]) | (a ^ label[s - 1]) | (a ^ label[s]) | (a ^ label[s + 1])) != 0;
            }
            const std::span cells(border.data(), to);
            for (const std::int32_t cell : cells) {
                const std::uint32_t* label = work_.label.data() + cell;
                const std::int32_t* rank = work_.rank.data() + cell;
                for (std::int32_t k = 0; k < 4; ++k) {
                    const std::int32_t offset = later[static_cast<std::size_t>(k)];
                    open_[count] = {crossing(*rank, rank[offset], cell, k), *label, label[offset]};
                    count += *label != label[offset];
                }
            }
        }
        count_ = count;
    }
    std::pair<std::uint32_t, std::uint32_t> sides(Crossing c) const {
        const auto place = static_cast<std::uint32_t>(c);
        const std::int32_t s = work_.stride;
        const std::array<std::int32_t, 4> later{1, s - 1, s, s + 1};
        const std::uint32_t* label = work_.label.data() + (place >> 2);
        return {*label, label[later[place & 3]]};
    }
    // Joins each group with the one across its lowest crossing. False if no group had one.
    bool join() {
        bool any = false;
        for (std::uint32_t g = 0; g < group_.size(); ++g) {
            const Crossing c = lowest_[g];
            const auto rank = static_cast<std::int32_t>(c >> 32);
            if (rank == wall) continue;
            const auto [first, second] = sides(c);
            const std::uint32_t a = head(first), b = head(second);
            any = true;
            if (a == b) continue;
            found_.push_back({first, second, height_of(rank)});
            group_[std::max(a, b)] = std::min(a, b);
        }
        for (std::uint32_t g = 0; g < group_.size(); ++g) group_[g] = group_[group_[g]];  // heads come first
        return any;
    }
    std::uint32_t head(std::uint32_t basin) {
        while (group_[basin] != basin) {
            group_[basin] = group_[group_[basin]];
            basin = group_[basin];
        }
        return basin;
    }

    const Work& work_;
    std::unique_ptr<Open[]> open_;
    std::size_t count_ = 0;
    std::vector<std::uint32_t> group_;
    std::vector<Crossing> lowest_;
    std::vector<Saddle> found_;
};

void wall_in(Work& work) {
    const auto close = [&](std::int64_t row, std::int64_t column) {
        work.rank[static_cast<std::size_t>(work.index(row, column))] = wall;
    };
    for (std::int64_t c = -1; c <= work.columns; ++c) close(-1, c), close(work.rows, c);
    for (std::int64_t r = 0; r < work.rows; ++r) close(r, -1), close(r, work.columns);
}

}  // namespace

TileFlood flood_tile(const Patch<float>& ground) {
    const auto s = static_cast<std::int32_t>(ground.stride());
    Work work{ground.rows(),
              ground.columns(),
              s,
              std::vector<std::int32_t>(ground.size()),
              std::vector<std::uint32_t>(ground.size()),
              {-s - 1, -s, -s + 1, -1, 1, s - 1, s, s + 1}};
    const float* heights = ground.data();
    std::int32_t* ranks = work.rank.data();
    for (std::size_t i = 0, size = ground.size(); i < size; ++i) ranks[i] = rank_of(heights[i]);

    TileFlood flood;
    flood.rows = work.rows;
    flood.columns = work.columns;
    flood.bottom.push_back(infinity);
    point_inner_cells(work);
    point_rim_cells(work, flood.bottom);
    wall_in(work);

    flood.rim.outlets = static_cast<std::uint32_t>(flood.bottom.size());
    along_rim(work.rows, work.columns,
              [&](std::int64_t r, std::int64_t c) { resolve(work, work.index(r, c), flood.bottom); });
    // First from the last cell back, each takes over what the cell it points to points to: then ways that lead back are
    // short, and few are left to be followed.
    const auto skip_one = [&](std::int32_t cell) {
        const std::uint32_t own = work.label_at(cell);
        const std::int32_t next = own & pointing ? static_cast<std::int32_t>(own & ~pointing) : cell;
        work.label_at(cell) = work.label_at(next);
    };
    for (std::int64_t row = work.rows - 2; row >= 1; --row)
        for (std::int32_t cell = work.index(row, work.columns - 2), end = work.index(row, 0); cell > end; --cell)
            skip_one(cell);
    for (std::int64_t row = 1; row + 1 < work.rows; ++row)
        for (std::int32_t cell = work.index(row, 1), end = work.index(row, work.columns - 1); cell < end; ++cell) {
            const std::uint32_t own = work.label_at(cell);
            if (!(own & pointing)) continue;
            const std::uint32_t next = work.label_at(static_cast<std::int32_t>(own & ~pointing));
            if (next & pointing)
                resolve(work, cell, flood.bottom);
            else
                work.label_at(cell) = next;
        }

    const auto basins = static_cast<std::uint32_t>(flood.bottom.size());
    auto levels = spill_levels(basins, flood.rim.outlets, SpanningSaddles(work, basins).find());
    flood.level = std::move(levels.level);
    flood.outlet = std::move(levels.outlet);
    flood.rim.between = std::move(levels.between);
    along_rim(work.rows, work.columns, [&](std::int64_t r, std::int64_t c) {
        flood.rim.outlet.push_back(work.label_at(work.index(r, c)));
        flood.rim.height.push_back(ground(r, c));
    });
    if (basins <= std::numeric_limits<std::uint16_t>::max())
        flood.basin.assign(work.label.begin(), work.label.end());
    else
        flood.wide_basin = std::move(work.label);
    return flood;
}

namespace {

template <class Number>
void raise_cells(const TileFlood& flood, const std::vector<Number>& basins, float* first, std::int64_t stride,
                 Raised& raised) {
    for (std::int64_t row = 0; row < flood.rows; ++row) {
        float* here = first + row * stride;
        const Number* basin = basins.data() + (row + 1) * (flood.columns + 2) + 1;
        for (std::int64_t c = 0; c < flood.columns; ++c) {
            const float level = flood.level[basin[c]];
            if (!(level > here[c])) continue;
            const float rise = level - here[c];
            raised.cells += 1;
            raised.height += std::llrint(static_cast<double>(rise) * 16777216.0);
            raised.deepest_m = std::max(raised.deepest_m, rise);
            here[c] = level;
        }
    }
}

}  // namespace

Raised settle_basins(TileFlood& flood, std::span<const float> outlet_level, float* first, std::int64_t stride) {
    for (std::size_t b = 0; b < flood.level.size(); ++b)
        flood.level[b] = std::max(flood.level[b], outlet_level[flood.outlet[b]]);
    Raised raised;
    for (std::size_t b = 1; b < flood.level.size(); ++b) raised.pits += flood.level[b] > flood.bottom[b];
    if (flood.wide_basin.empty())
        raise_cells(flood, flood.basin, first, stride, raised);
    else
        raise_cells(flood, flood.wide_basin, first, stride, raised);
    return raised;
}

}  // namespace soilhold::terrain
