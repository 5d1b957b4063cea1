#include "terrain/tile_flats.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace soilhold::terrain {
namespace {

constexpr std::int32_t not_flat = -1;

// The steepest way down of a row's cells, 0 where nothing lies lower.
void steepest_ways(const float* here, std::int64_t stride, std::int64_t columns, std::int32_t* way) {
    constexpr float diagonal_weight = 0.70710678F;
    const float *north = here - stride, *south = here + stride;
    for (std::int64_t c = 0; c < columns; ++c) {
        const float z = here[c];
        float steepest = 0;
        std::int32_t best = 0;
        const auto take = [&](float fall, std::int32_t code) {
            const bool steeper = fall > steepest;
            steepest = steeper ? fall : steepest;
            best = steeper ? code : best;
        };
        take(z - here[c + 1], 1);
        take(z - south[c], 2);
        take(z - here[c - 1], 3);
        take(z - north[c], 4);
        take((z - south[c + 1]) * diagonal_weight, 5);
        take((z - south[c - 1]) * diagonal_weight, 6);
        take((z - north[c - 1]) * diagonal_weight, 7);
        take((z - north[c + 1]) * diagonal_weight, 8);
        way[c] = best;
    }
}

struct Counts {
    std::int32_t* toward;
    std::int32_t* away;
};

// Spreads a count over flat cells from those in the queue, whose counts are set and do not fall along it.
void spread(std::int32_t* count, std::vector<std::int32_t>& queue, const std::array<std::int32_t, 8>& offsets) {
    for (std::size_t at = 0; at < queue.size(); ++at) {
        const std::int32_t cell = queue[at], next = count[cell] + 1;
        for (const std::int32_t offset : offsets)
            if (count[cell + offset] > next) {
                count[cell + offset] = next;
                queue.push_back(cell + offset);
            }
    }
}

// The way of a flat cell that has no level neighbour with a direction.
Direction flat_way(std::int32_t cell, Counts counts, const std::array<std::int32_t, 8>& offsets) {
    std::int32_t least = std::numeric_limits<std::int32_t>::max();
    std::size_t best = 0;
    for (std::size_t k = 0; k < 8; ++k) {
        const std::int32_t neighbour = cell + offsets[k];
        if (counts.away[neighbour] == not_flat) continue;
        const std::int32_t rank = 2 * counts.toward[neighbour] - counts.away[neighbour];
        if (rank >= least) continue;
        least = rank;
        best = k;
    }
    return static_cast<Direction>(best + 1);
}

[[noreturn]] void refuse() {
    throw std::invalid_argument("level ground has no way out: fill the depressions before giving directions");
}

// Marks the flats that touch the rim. Returns their cells' marks, empty if there is none.
std::vector<std::uint8_t> open_flats(std::int64_t rows, std::int64_t columns, const std::int32_t* toward,
                                     std::size_t cells, const std::array<std::int32_t, 8>& offsets,
                                     std::vector<std::int32_t>& queue) {
    queue.clear();
    along_rim(rows, columns, [&](std::int64_t r, std::int64_t c) {
        const auto cell = static_cast<std::int32_t>((r + 1) * (columns + 2) + c + 1);
        if (toward[cell] != not_flat) queue.push_back(cell);
    });
    std::vector<std::uint8_t> open;
    if (queue.empty()) return open;
    open.assign(cells, 0);
    for (const std::int32_t cell : queue) open[static_cast<std::size_t>(cell)] = 1;
    for (std::size_t at = 0; at < queue.size(); ++at)
        for (const std::int32_t offset : offsets) {
            const auto neighbour = static_cast<std::size_t>(queue[at] + offset);
            if (toward[neighbour] == not_flat || open[neighbour]) continue;
            open[neighbour] = 1;
            queue.push_back(static_cast<std::int32_t>(neighbour));
        }
    return open;
}

}  // namespace

void FlatScratch::fit(std::size_t cells) {
    if (toward.size() >= cells) return;
    toward.resize(cells, not_flat);
    away.resize(cells, not_flat);
}

TileFlats direct_tile(const Patch<float>& filled, Direction* first, std::int64_t stride, FlatScratch& scratch) {
    scratch.fit(filled.size());
    const auto offsets = way_offsets(filled.stride());
    const Counts counts{scratch.toward.data(), scratch.away.data()};
    const float* height = filled.data();
    auto &flat = scratch.flat, &queue = scratch.queue;
    flat.clear();

    std::vector<std::int32_t> way(static_cast<std::size_t>(filled.columns()));
    for (std::int64_t row = 0; row < filled.rows(); ++row) {
        steepest_ways(&filled(row, 0), filled.stride(), filled.columns(), way.data());
        Direction* to = first + row * stride;
        const std::int32_t begin = filled.index(row, 0);
        for (std::int64_t c = 0; c < filled.columns(); ++c) {
            to[c] = static_cast<Direction>(way[static_cast<std::size_t>(c)]);
            const std::int32_t cell = begin + static_cast<std::int32_t>(c);
            if (to[c] != Direction::none || std::isnan(height[cell])) continue;
            bool edge = false;
            for (const std::int32_t offset : offsets) edge = edge || std::isnan(height[cell + offset]);
            if (edge) to[c] = Direction::outlet;
            if (edge) continue;
            flat.push_back(cell);
            counts.toward[cell] = counts.away[cell] = unreached;
        }
    }

    const auto in_tile = [&](std::int32_t cell) {
        const std::int64_t r = cell / filled.stride() - 1, c = cell % filled.stride() - 1;
        return r >= 0 && c >= 0 && r < filled.rows() && c < filled.columns();
    };
    const auto exit_of = [&](std::int32_t cell) {
        for (std::size_t k = 0; k < 8; ++k) {
            const std::int32_t neighbour = cell + offsets[k];
            if (counts.toward[neighbour] == not_flat && height[neighbour] == height[cell] && in_tile(neighbour))
                return static_cast<Direction>(k + 1);
        }
        return Direction::none;
    };
    queue.clear();
    for (const std::int32_t cell : flat)
        if (exit_of(cell) != Direction::none) {
            counts.toward[cell] = 1;
            queue.push_back(cell);
        }
    spread(counts.toward, queue, offsets);
    queue.clear();
    for (const std::int32_t cell : flat)
        for (const std::int32_t offset : offsets)
            if (height[cell + offset] > height[cell]) {
                counts.away[cell] = 1;
                queue.push_back(cell);
                break;
            }
    spread(counts.away, queue, offsets);

    TileFlats flats{filled.rows(), filled.columns(), {}, FlatRim(rim_cells(filled.rows(), filled.columns()))};
    const auto open = open_flats(filled.rows(), filled.columns(), counts.toward, filled.size(), offsets, queue);
    bool stuck = false;
    for (const std::int32_t cell : flat) {
        if (!open.empty() && open[static_cast<std::size_t>(cell)]) {
            flats.open.push_back({cell, counts.toward[cell], counts.away[cell], exit_of(cell)});
            continue;
        }
        stuck = stuck || counts.toward[cell] == unreached;
        const std::int64_t r = cell / filled.stride() - 1, c = cell % filled.stride() - 1;
        const Direction exit = counts.toward[cell] == 1 ? exit_of(cell) : Direction::none;
        first[r * stride + c] = exit != Direction::none ? exit : flat_way(cell, counts, offsets);
    }
    std::size_t place = 0;
    along_rim(filled.rows(), filled.columns(), [&](std::int64_t r, std::int64_t c) {
        const std::int32_t cell = filled.index(r, c);
        const bool is_flat = counts.toward[cell] != not_flat;
        flats.rim.height[place] = height[cell];
        flats.rim.toward[place] = is_flat ? counts.toward[cell] : std::isnan(height[cell]) ? -1 : 0;
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

void load(const std::vector<FlatCell>& open, Counts counts) {
    for (const auto& flat : open) {
        counts.toward[flat.cell] = flat.toward;
        counts.away[flat.cell] = flat.away;
    }
}

void clear(const std::vector<FlatCell>& open, Counts counts) {
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
    std::size_t place = 0;
    along_rim(flats.rows, flats.columns, [&](std::int64_t r, std::int64_t c) {
        const std::size_t here = place++;
        if (flats.rim.toward[here] <= 0) return;
        const auto cell = static_cast<std::int32_t>((r + 1) * stride + c + 1);
        halo_neighbours(flats.rows, flats.columns, r, c, [&](std::size_t, std::size_t there) {
            const std::int32_t count = halo.toward[there];
            if (count > 0 || (count == 0 && halo.height[there] == flats.rim.height[here]))
                if (count + 1 < flats.rim.toward[here]) toward.push_back({count + 1, cell});
            if (halo.away[there] + 1 < flats.rim.away[here]) away.push_back({halo.away[there] + 1, cell});
        });
    });
    if (toward.empty() && away.empty()) return false;
    load(flats.open, counts);
    arrive(counts.toward, toward, scratch.queue, offsets);
    arrive(counts.away, away, scratch.queue, offsets);
    for (auto& flat : flats.open) {
        flat.toward = counts.toward[flat.cell];
        flat.away = counts.away[flat.cell];
    }
    place = 0;
    along_rim(flats.rows, flats.columns, [&](std::int64_t r, std::int64_t c) {
        const auto cell = (r + 1) * stride + c + 1;
        if (flats.rim.toward[place] > 0) {
            flats.rim.toward[place] = counts.toward[cell];
            flats.rim.away[place] = counts.away[cell];
        }
        ++place;
    });
    clear(flats.open, counts);
    return true;  // what arrives, arrives on the rim
}

void settle_open_flats(const TileFlats& flats, const FlatRim& halo, Direction* first, std::int64_t stride,
                       FlatScratch& scratch) {
    if (flats.open.empty()) return;
    const std::int64_t width = flats.columns + 2;
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
