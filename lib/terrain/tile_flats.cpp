#include "terrain/tile_flats.h"

#include <algorithm>
#include <bit>
#include <cstring>
#include <span>
#include <stdexcept>
#include <utility>

#include "terrain/steepest_ways.h"

namespace soilhold::terrain {
namespace {

constexpr std::int32_t not_flat = -1;

constexpr float missing = std::numeric_limits<float>::infinity();

float high_if_missing(float height) {
    const auto bits = std::bit_cast<std::int32_t>(height);
    return std::bit_cast<float>((bits & 0x7FFFFFFF) >= 0x7F800000 ? 0x7F800000 : bits);
}

struct Counts {
    std::int32_t* toward;
    std::int32_t* away;
};

// Spreads a count over flat cells from those in the queue, whose counts are set and do not fall along it. A cell is
// lowered once at most. Each neighbour is put in line, but the line grows only if it was lowered: a branch there would
// be guessed wrong once or twice a cell.
void spread(std::int32_t* count, std::vector<std::int32_t>& queue, std::size_t cells,
            const std::array<std::int32_t, 8>& offsets) {
    std::size_t length = queue.size();
    queue.resize(cells + 1);
    std::int32_t* line = queue.data();
    for (std::size_t at = 0; at < length; ++at) {
        const std::int32_t cell = line[at], next = count[cell] + 1;
        for (const std::int32_t offset : offsets) {
            const std::int32_t before = count[cell + offset];
            line[length] = cell + offset;
            length += before > next;
            count[cell + offset] = std::min(before, next);
        }
    }
}

// The way of a flat cell that has no level neighbour with a direction: of equal ones the first.
Direction flat_way(std::int32_t cell, Counts counts, const std::array<std::int32_t, 8>& offsets) {
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (std::int32_t k = 0; k < 8; ++k) {
        const std::int32_t neighbour = cell + offsets[static_cast<std::size_t>(k)];
        const std::int32_t toward = counts.toward[neighbour], away = counts.away[neighbour];
        const std::int64_t rank = static_cast<std::int64_t>(2 * toward - away) * 8 + k;
        least = std::min(least, away == not_flat ? std::numeric_limits<std::int64_t>::max() : rank);
    }
    return static_cast<Direction>((least & 7) + 1);
}

[[noreturn]] void refuse() {
    throw std::invalid_argument("level ground has no way out: fill the depressions before giving directions");
}

// What a cell of a tile is, while its flats are worked.
namespace kind {
constexpr std::uint8_t other = 0, flat = 1, on_rim = 2, open = 4, halo = 8;
}

// Whether all cells around are flat, and so most of a lake's: three at once, as one number.
bool amid_flat(const std::uint8_t* what, std::int64_t stride) {
    std::uint32_t north = 0, here = 0, south = 0;
    std::memcpy(&north, what - stride - 1, 4);
    std::memcpy(&here, what - 1, 4);
    std::memcpy(&south, what + stride - 2, 4);  // one to the west, for beyond the last cell there is none
    constexpr std::uint32_t three = 0x010101U * kind::flat;
    const std::uint32_t all =
        std::endian::native == std::endian::little ? north & here & (south >> 8) : (north >> 8) & (here >> 8) & south;
    return (all & three) == three;
}

// Gathers the flats that touch the rim, one after the other, and marks their cells as open.
void gather_open(Patch<std::uint8_t>& kinds, const std::array<std::int32_t, 8>& offsets, TileFlats& flats,
                 std::vector<std::int32_t>& queue) {
    const std::int64_t rows = kinds.rows(), columns = kinds.columns();
    std::uint8_t* what = kinds.data();
    flats.owner.assign(static_cast<std::size_t>(rim_cells(rows, columns)), -1);
    queue.clear();
    along_rim(rows, columns, [&](std::int64_t row, std::int64_t column) {
        const std::int32_t start = kinds.index(row, column);
        if ((what[start] & (kind::flat | kind::open)) != kind::flat) return;
        std::size_t at = queue.size();
        what[start] |= kind::open;
        queue.push_back(start);
        for (; at < queue.size(); ++at) {
            const std::int32_t cell = queue[at];
            if (what[cell] & kind::on_rim) {
                const std::int64_t r = cell / kinds.stride() - 1, c = cell % kinds.stride() - 1;
                flats.owner[static_cast<std::size_t>(rim_place(rows, columns, r, c))] =
                    static_cast<std::int32_t>(flats.ends.size());
            }
            for (const std::int32_t offset : offsets)
                if ((what[cell + offset] & (kind::flat | kind::open)) == kind::flat) {
                    what[cell + offset] |= kind::open;
                    queue.push_back(cell + offset);
                }
        }
        flats.ends.push_back(static_cast<std::uint32_t>(queue.size()));
    });
}

}  // namespace

void FlatScratch::fit(std::size_t cells) {
    if (toward.size() >= cells) return;
    toward.resize(cells, not_flat);
    away.resize(cells, not_flat);
}

TileFlats direct_tile(Patch<float> filled, Direction* first, std::int64_t stride, FlatScratch& scratch) {
    float* heights = filled.data();
    for (std::size_t i = 0, size = filled.size(); i < size; ++i) heights[i] = high_if_missing(heights[i]);
    scratch.fit(filled.size());
    const std::int64_t rows = filled.rows(), columns = filled.columns();
    const auto offsets = way_offsets(filled.stride());
    const Counts counts{scratch.toward.data(), scratch.away.data()};
    const float* height = heights;
    auto &flat = scratch.flat, &queue = scratch.queue;
    flat.clear();
    queue.clear();

    Patch<std::uint8_t> ways(rows, columns, 0), kinds(rows, columns, kind::halo);
    for (std::int64_t row = 0; row < rows; ++row) {
        const std::int32_t begin = filled.index(row, 0), end = begin + static_cast<std::int32_t>(columns);
        std::uint8_t *way = ways.data(), *what = kinds.data();
        std::fill(what + begin, what + end, kind::other);
        steepest_ways(height + begin, filled.stride(), columns, way + begin);
        const std::size_t before = flat.size();
        list_flat_cells(way, begin, end, flat);
        for (std::size_t at = before; at < flat.size(); ++at) {
            const std::int32_t cell = flat[at];
            const bool higher = way[cell] == flat_below;
            const bool rim = row == 0 || row + 1 == rows || cell == begin || cell + 1 == end;
            way[cell] = 0;
            what[cell] = rim ? kind::flat | kind::on_rim : kind::flat;
            counts.toward[cell] = unreached;
            counts.away[cell] = higher ? 1 : unreached;
            if (higher) queue.push_back(cell);
        }
    }
    spread(counts.away, queue, flat.size(), offsets);

    // A way to a level neighbour with a direction waits in `ways` until the counts are known.
    queue.clear();
    for (const std::int32_t cell : flat) {
        if (amid_flat(kinds.data() + cell, filled.stride())) continue;
        unsigned level = 0;
        for (unsigned k = 0; k < 8; ++k) {
            const std::int32_t neighbour = cell + offsets[k];
            const bool leads = kinds.data()[neighbour] == kind::other;
            level |= static_cast<unsigned>(leads & (height[neighbour] == height[cell])) << k;
        }
        if (level == 0) continue;
        ways.data()[cell] = static_cast<std::uint8_t>(std::countr_zero(level) + 1);
        counts.toward[cell] = 1;
        queue.push_back(cell);
    }
    spread(counts.toward, queue, flat.size(), offsets);

    TileFlats flats{rows, columns, {}, {}, {}, FlatRim(rim_cells(rows, columns))};
    gather_open(kinds, offsets, flats, queue);
    bool stuck = false;
    for (const std::int32_t cell : flat) {
        if (kinds.data()[cell] & kind::open) continue;
        stuck = stuck || counts.toward[cell] == unreached;
        auto& way = ways.data()[cell];
        if (way == 0) way = static_cast<std::uint8_t>(flat_way(cell, counts, offsets));
    }
    flats.open.reserve(queue.size());
    for (const std::int32_t cell : queue) {
        const auto exit = static_cast<Direction>(std::exchange(ways.data()[cell], std::uint8_t{0}));
        flats.open.push_back({cell, counts.toward[cell], counts.away[cell], exit});
    }
    for (std::int64_t row = 0; row < rows; ++row)
        std::transform(&ways(row, 0), &ways(row, 0) + columns, first + row * stride,
                       [](std::uint8_t way) { return static_cast<Direction>(way); });
    std::size_t place = 0;
    along_rim(filled.rows(), filled.columns(), [&](std::int64_t r, std::int64_t c) {
        const std::int32_t cell = filled.index(r, c);
        const bool is_flat = counts.toward[cell] != not_flat;
        flats.rim.height[place] = height[cell];
        flats.rim.toward[place] = is_flat ? counts.toward[cell] : height[cell] == missing ? -1 : 0;
        flats.rim.away[place] = is_flat ? counts.away[cell] : unreached;
        ++place;
    });
    for (const std::int32_t cell : flat) counts.toward[cell] = counts.away[cell] = not_flat;
    if (stuck) refuse();
    return flats;
}

namespace {

// A count that reaches a rim cell from outside the tile.
struct Arrival {
    std::int32_t count;
    std::int32_t cell;
};

void load(std::span<const FlatCell> open, Counts counts) {
    for (const auto& flat : open) {
        counts.toward[flat.cell] = flat.toward;
        counts.away[flat.cell] = flat.away;
    }
}

void clear(std::span<const FlatCell> open, Counts counts) {
    for (const auto& flat : open) counts.toward[flat.cell] = counts.away[flat.cell] = not_flat;
}

// Calls visit(way, place in the halo) for the neighbours of a cell that lie outside the tile.
template <class Visit>
void halo_neighbours(std::int64_t rows, std::int64_t columns, std::int64_t row, std::int64_t column,
                     const Visit& visit) {
    for (std::size_t k = 0; k < 8; ++k) {
        const std::int64_t r = row + row_steps[k], c = column + column_steps[k];
        if (r >= 0 && c >= 0 && r < rows && c < columns) continue;
        visit(k, static_cast<std::size_t>(rim_place(rows + 2, columns + 2, r + 1, c + 1)));
    }
}

// Lowers counts from the arrivals on. Any order ends at the same counts; the lowest first is the shortest.
void arrive(std::int32_t* count, std::vector<Arrival>& arrivals, std::vector<std::int32_t>& queue,
            const std::array<std::int32_t, 8>& offsets) {
    std::sort(arrivals.begin(), arrivals.end(), [](auto a, auto b) { return a.count < b.count; });
    queue.clear();
    std::size_t at = 0;
    auto arrival = arrivals.begin();
    while (at < queue.size() || arrival != arrivals.end()) {
        std::int32_t cell = 0;
        if (arrival != arrivals.end() && (at == queue.size() || arrival->count <= count[queue[at]])) {
            cell = arrival->cell;
            const std::int32_t reached = (arrival++)->count;
            if (count[cell] <= reached) continue;
            count[cell] = reached;
        } else {
            cell = queue[at++];
        }
        for (const std::int32_t offset : offsets)
            if (count[cell + offset] > count[cell] + 1) {
                count[cell + offset] = count[cell] + 1;
                queue.push_back(cell + offset);
            }
    }
}

}  // namespace

bool relax_open_flats(TileFlats& flats, const FlatRim& halo, FlatScratch& scratch) {
    const std::int64_t stride = flats.columns + 2;
    scratch.fit(static_cast<std::size_t>((flats.rows + 2) * stride));
    const auto offsets = way_offsets(stride);
    const Counts counts{scratch.toward.data(), scratch.away.data()};
    std::vector<Arrival> toward, away;
    std::vector<std::int32_t> touched;  // flats that something arrives at
    std::size_t place = 0;
    along_rim(flats.rows, flats.columns, [&](std::int64_t r, std::int64_t c) {
        const std::size_t here = place++, before = toward.size() + away.size();
        if (flats.owner[here] < 0) return;
        const auto cell = static_cast<std::int32_t>((r + 1) * stride + c + 1);
        halo_neighbours(flats.rows, flats.columns, r, c, [&](std::size_t, std::size_t there) {
            const std::int32_t count = halo.toward[there];
            if (count > 0 || (count == 0 && halo.height[there] == flats.rim.height[here]))
                if (count + 1 < flats.rim.toward[here]) toward.push_back({count + 1, cell});
            if (halo.away[there] + 1 < flats.rim.away[here]) away.push_back({halo.away[there] + 1, cell});
        });
        if (toward.size() + away.size() > before) touched.push_back(flats.owner[here]);
    });
    if (touched.empty()) return false;
    std::sort(touched.begin(), touched.end());
    touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
    const auto cells_of = [&](std::int32_t flat) {
        const auto at = static_cast<std::size_t>(flat);
        const std::size_t begin = at == 0 ? 0 : flats.ends[at - 1];
        return std::span(flats.open).subspan(begin, flats.ends[at] - begin);
    };
    for (const std::int32_t flat : touched) load(cells_of(flat), counts);
    arrive(counts.toward, toward, scratch.queue, offsets);
    arrive(counts.away, away, scratch.queue, offsets);
    for (const std::int32_t flat : touched)
        for (auto& cell : cells_of(flat)) {
            cell.toward = counts.toward[cell.cell];
            cell.away = counts.away[cell.cell];
        }
    place = 0;
    along_rim(flats.rows, flats.columns, [&](std::int64_t r, std::int64_t c) {
        const auto cell = (r + 1) * stride + c + 1;
        if (counts.toward[cell] != not_flat) {
            flats.rim.toward[place] = counts.toward[cell];
            flats.rim.away[place] = counts.away[cell];
        }
        ++place;
    });
    for (const std::int32_t flat : touched) clear(cells_of(flat), counts);
    return true;  // what arrives, arrives on the rim
}

void settle_open_flats(const TileFlats& flats, const FlatRim& halo, Direction* first, std::int64_t stride,
                       FlatScratch& scratch) {
    if (flats.open.empty()) return;
    const auto width = static_cast<std::int32_t>(flats.columns + 2);  // 32 bits: division takes half the time
    scratch.fit(static_cast<std::size_t>((flats.rows + 2) * width));
    const auto offsets = way_offsets(width);
    const Counts counts{scratch.toward.data(), scratch.away.data()};
    load(flats.open, counts);
    std::size_t place = 0;
    along_rim(flats.rows + 2, width, [&](std::int64_t r, std::int64_t c) {
        if (halo.toward[place] > 0) {
            counts.toward[r * width + c] = halo.toward[place];
            counts.away[r * width + c] = halo.away[place];
        }
        ++place;
    });
    bool stuck = false;
    for (const auto& flat : flats.open) {
        const std::int64_t r = flat.cell / width - 1, c = flat.cell % width - 1;
        Direction exit = flat.exit;
        if (r == 0 || c == 0 || r + 1 == flats.rows || c + 1 == flats.columns) {
            const float own = flats.rim.height[static_cast<std::size_t>(rim_place(flats.rows, flats.columns, r, c))];
            halo_neighbours(flats.rows, flats.columns, r, c, [&](std::size_t way, std::size_t there) {
                const auto direction = static_cast<Direction>(way + 1);
                if (halo.toward[there] != 0 || halo.height[there] != own) return;
                if (exit == Direction::none || direction < exit) exit = direction;
            });
        }
        stuck = stuck || flat.toward == unreached;
        first[r * stride + c] = exit != Direction::none ? exit : flat_way(flat.cell, counts, offsets);
    }
    clear(flats.open, counts);
    along_rim(flats.rows + 2, width, [&](std::int64_t r, std::int64_t c) {
        counts.toward[r * width + c] = counts.away[r * width + c] = not_flat;
    });
    if (stuck) refuse();
}

}  // namespace soilhold::terrain
