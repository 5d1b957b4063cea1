#include "terrain/tile_flow.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "terrain/processor_clones.h"

namespace soilhold::terrain {
namespace {

constexpr std::uint8_t done = 255;
constexpr std::uint8_t beyond = 128;  // a halo cell: never the last tributary's turn

[[noreturn]] void refuse() { throw std::invalid_argument("the directions run in a circle"); }

// Offsets by code; 0 ends.
std::array<std::int32_t, 9> steps_of(std::int64_t stride) {
    const auto offsets = way_offsets(stride);
    std::array<std::int32_t, 9> steps{};
    std::copy(offsets.begin(), offsets.end(), steps.begin() + 1);
    return steps;
}

// How many cells of the tile run into each cell of the tile.
SOILHOLD_PROCESSOR_CLONES
Patch<std::uint8_t> tributaries_of(const Ways& ways) {
    Patch<std::uint8_t> count(ways.rows(), ways.columns(), beyond);
    Ways inner = ways;
    along_rim(ways.rows() + 2, ways.columns() + 2, [&](std::int64_t r, std::int64_t c) { inner(r - 1, c - 1) = 0; });
    const auto steps = steps_of(ways.stride());
    for (std::int64_t row = 0; row < ways.rows(); ++row) {
        const std::uint8_t* here = &inner(row, 0);
        std::uint8_t* to = &count(row, 0);
        const std::int64_t columns = ways.columns();
        std::fill(to, to + columns, std::uint8_t{0});
        for (std::uint8_t k = 1; k < 9; ++k) {
            const std::uint8_t* from = here - steps[k];
            for (std::int64_t c = 0; c < columns; ++c)
                to[c] = static_cast<std::uint8_t>(to[c] + static_cast<std::uint8_t>(from[c] == k));
        }
    }
    return count;
}

bool inside(const Ways& ways, std::int32_t cell) {
    const std::int64_t r = cell / ways.stride() - 1, c = cell % ways.stride() - 1;
    return r >= 0 && c >= 0 && r < ways.rows() && c < ways.columns();
}

// Whether a cell outside the tile runs into this rim cell.
bool entered(const Ways& ways, std::int64_t row, std::int64_t column) {
    for (std::size_t k = 0; k < 8; ++k) {
        const std::int64_t r = row - row_steps[k], c = column - column_steps[k];
        if (r >= 0 && c >= 0 && r < ways.rows() && c < ways.columns()) continue;
        if (ways(r, c) == k + 1) return true;
    }
    return false;
}

}  // namespace

Ways ways_of(const Patch<Direction>& directions, const Patch<std::uint8_t>* barriers) {
    Ways ways(directions.rows(), directions.columns(), 0);
    const Direction* from = directions.data();
    std::uint8_t* to = ways.data();
    for (std::size_t i = 0, size = directions.size(); i < size; ++i)
        to[i] = from[i] == Direction::outlet ? std::uint8_t{0} : static_cast<std::uint8_t>(from[i]);
    if (!barriers) return ways;
    for (std::int64_t r = -1; r <= ways.rows(); ++r)
        for (std::int64_t c = -1; c <= ways.columns(); ++c) {
            const std::uint8_t way = ways(r, c);
            if (way == 0) continue;
            const std::int64_t r2 = r + row_steps[way - 1U], c2 = c + column_steps[way - 1U];
            if (r2 < -1 || c2 < -1 || r2 > ways.rows() || c2 > ways.columns()) continue;
            if ((*barriers)(r2, c2)) ways(r, c) = 0;
        }
    return ways;
}

FlowRim accumulate_tile(const Ways& ways, Patch<double>& sums) {
    const auto steps = steps_of(ways.stride());
    auto tributaries = tributaries_of(ways);
    const std::uint8_t* way_of = ways.data();
    std::uint8_t* left = tributaries.data();
    double* sum = sums.data();
    std::int64_t summed = 0;
    for (std::int64_t row = 0; row < ways.rows(); ++row) {
        const std::int32_t first = ways.index(row, 0), end = first + static_cast<std::int32_t>(ways.columns());
        for (std::int32_t start = first; start < end; ++start) {
            if (left[start] != 0) continue;
            // Down from a source, as long as nothing else is still to come.
            std::int32_t cell = start;
            double carried = sum[cell];
            for (;;) {
                left[cell] = done;
                ++summed;
                const std::uint8_t way = way_of[cell];
                if (way == 0) break;
                cell += steps[way];
                carried += sum[cell];
                sum[cell] = carried;
                if (--left[cell] != 0) break;
            }
        }
    }
    if (summed != ways.cells()) refuse();

    FlowRim rim;
    // The rim place by which a cell's water leaves, for cells walked before; 0 not walked, else place + 2, 1 it ends.
    std::vector<std::int32_t> known(ways.size(), 0);
    std::vector<std::int32_t> walked;
    along_rim(ways.rows(), ways.columns(), [&](std::int64_t r, std::int64_t c) {
        std::int32_t cell = ways.index(r, c);
        const std::uint8_t way = ways.data()[cell];
        const bool out = way != 0 && !inside(ways, cell + steps[way]);
        rim.way.push_back(out ? way : std::uint8_t{0});
        rim.leaves.push_back(out ? sums.data()[cell] : 0);
        if (!entered(ways, r, c)) {
            rim.again.push_back(FlowRim::nothing);
            return;
        }
        walked.clear();
        std::int32_t answer = 0;
        while (answer == 0) {
            answer = known[static_cast<std::size_t>(cell)];
            if (answer != 0) break;
            walked.push_back(cell);
            const std::uint8_t on = ways.data()[cell];
            if (on == 0) answer = 1;
            const std::int32_t next = cell + steps[on];
            if (on != 0 && !inside(ways, next)) {
                const std::int64_t row = cell / ways.stride() - 1, column = cell % ways.stride() - 1;
                answer = 2 + static_cast<std::int32_t>(rim_place(ways.rows(), ways.columns(), row, column));
            }
            cell = next;
        }
        for (const std::int32_t w : walked) known[static_cast<std::size_t>(w)] = answer;
        rim.again.push_back(answer == 1 ? FlowRim::ends : answer - 2);
    });
    return rim;
}

std::vector<std::vector<double>> join_flows(const TileCut& cut, const std::vector<FlowRim>& rims) {
    // A node is a rim cell: all of the first tile, then of the second and so on.
    std::vector<std::size_t> first{0};
    for (const auto& rim : rims) first.push_back(first.back() + rim.way.size());
    const std::size_t nodes = first.back();
    constexpr std::size_t none = static_cast<std::size_t>(-1);
    std::vector<std::size_t> target(nodes, none);  // the rim cell of another tile that a leaving cell runs into
    std::vector<std::size_t> onward(nodes, none);  // the rim cell by which that leaves again
    std::vector<std::uint32_t> waiting(nodes, 0);
    std::vector<double> total(nodes, 0), arrives(nodes, 0);
    std::size_t leaving = 0;
    for (std::int64_t t = 0; t < cut.count(); ++t) {
        const Tile tile = cut.tile(t);
        const auto& rim = rims[static_cast<std::size_t>(t)];
        std::size_t place = 0;
        along_rim(tile.rows, tile.columns, [&](std::int64_t r, std::int64_t c) {
            const std::size_t at = place++, node = first[static_cast<std::size_t>(t)] + at;
            if (rim.way[at] == 0) return;
            ++leaving;
            total[node] = rim.leaves[at];
            const std::int64_t row = tile.row + r + row_steps[rim.way[at] - 1U];
            const std::int64_t column = tile.column + c + column_steps[rim.way[at] - 1U];
            if (!cut.shape().holds(row, column)) throw std::invalid_argument("a direction leads out of the grid");
            const std::int64_t other = cut.tile_at(row, column);
            const Tile there = cut.tile(other);
            const auto where =
                static_cast<std::size_t>(rim_place(there.rows, there.columns, row - there.row, column - there.column));
            target[node] = first[static_cast<std::size_t>(other)] + where;
            const std::int32_t again = rims[static_cast<std::size_t>(other)].again[where];
            if (again < 0) return;
            onward[node] = first[static_cast<std::size_t>(other)] + static_cast<std::size_t>(again);
            ++waiting[onward[node]];
        });
    }
    std::size_t summed = 0;
    for (std::size_t start = 0; start < nodes; ++start) {
        std::size_t node = start;
        while (node != none && target[node] != none && waiting[node] == 0) {
            ++summed;
            arrives[target[node]] += total[node];
            target[node] = none;  // done
            const std::size_t next = onward[node];
            if (next != none) {
                total[next] += total[node];
                --waiting[next];
            }
            node = next;
        }
    }
    if (summed != leaving) refuse();
    std::vector<std::vector<double>> result;
    for (std::size_t t = 0; t < rims.size(); ++t)
        result.emplace_back(arrives.begin() + static_cast<std::ptrdiff_t>(first[t]),
                            arrives.begin() + static_cast<std::ptrdiff_t>(first[t + 1]));
    return result;
}

void add_arrivals(const Ways& ways, const FlowRim& rim, const std::vector<double>& arrives, double* first,
                  std::int64_t stride) {
    // Where ways meet, the sum waits for all of them: marks say which meeting a walked cell is, 1 if none.
    struct Meeting {
        double carried;
        std::uint32_t waiting;
    };
    std::vector<Meeting> meetings(2);
    std::vector<std::uint32_t> mark(ways.size(), 0);
    std::vector<std::int32_t> starts;
    const auto steps = steps_of(ways.stride());
    std::size_t place = 0;
    along_rim(ways.rows(), ways.columns(), [&](std::int64_t r, std::int64_t c) {
        const std::size_t at = place++;
        if (rim.again[at] == FlowRim::nothing) return;
        starts.push_back(ways.index(r, c));
        mark[static_cast<std::size_t>(starts.back())] = static_cast<std::uint32_t>(meetings.size());
        meetings.push_back({arrives[at], 0});
    });
    const auto next_of = [&](std::int32_t cell) {
        const std::uint8_t way = ways.data()[cell];
        const std::int32_t next = cell + steps[way];
        return way != 0 && inside(ways, next) ? next : -1;
    };
    for (const std::int32_t start : starts)
        for (std::int32_t cell = next_of(start); cell >= 0; cell = next_of(cell)) {
            auto& here = mark[static_cast<std::size_t>(cell)];
            if (here == 0) {
                here = 1;
                continue;
            }
            if (here == 1) {
                here = static_cast<std::uint32_t>(meetings.size());
                meetings.push_back({0, 1});  // the one that walked here before
            }
            ++meetings[here].waiting;
            break;
        }
    // A start that others run into is walked on from by the last of them.
    std::erase_if(starts,
                  [&](std::int32_t start) { return meetings[mark[static_cast<std::size_t>(start)]].waiting > 0; });
    for (const std::int32_t start : starts) {
        double carried = meetings[mark[static_cast<std::size_t>(start)]].carried;
        for (std::int32_t cell = start; cell >= 0;) {
            first[(cell / ways.stride() - 1) * stride + cell % ways.stride() - 1] += carried;
            cell = next_of(cell);
            if (cell < 0 || mark[static_cast<std::size_t>(cell)] == 1) continue;
            auto& meeting = meetings[mark[static_cast<std::size_t>(cell)]];
            meeting.carried += carried;
            if (--meeting.waiting > 0) break;
            carried = meeting.carried;
        }
    }
}

}  // namespace soilhold::terrain
