#include "terrain/cut_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace soilhold::terrain {

namespace {

// A cost is what is taken away, in steps of 2^-16 m, and the number of cells in its last 20 bits: one comparison
// settles both. A circle of most_reach has fewer than 2^20 cells, and 100 m of each fit in the 43 bits left.
constexpr std::int64_t one_cell = 1, one_step = std::int64_t{1} << 20;
constexpr double steps_a_metre = 65536;
constexpr std::int64_t not_reached = std::numeric_limits<std::int64_t>::max(), out_of_reach = -1;
constexpr double most_depth_m = 100;

std::int64_t cost_of(double depth_m) {
    return static_cast<std::int64_t>(depth_m * steps_a_metre + 0.5) * one_step + one_cell;
}

}  // namespace

CutSearch::CutSearch(const SearchGround& ground, const CutLimits& limits, double cell_m)
    : ground_(ground), deepest_m_(limits.deepest_m) {
    if (!(limits.longest_m > 0 && limits.deepest_m > 0 && limits.deepest_m <= most_depth_m && cell_m > 0))
        throw std::invalid_argument("a cut is longer than 0, deeper than 0 and at most 100 m deep");
    const double radius = limits.longest_m / cell_m;
    if (!(radius < static_cast<double>(most_reach + 1)))
        throw std::invalid_argument("a cut reaches over at most 500 cells");
    const auto reach = static_cast<std::int32_t>(radius);
    stride_ = 2 * reach + 3;
    centre_ = (reach + 1) * stride_ + reach + 1;
    for (std::int32_t r = -reach - 1; r <= reach + 1; ++r)
        for (std::int32_t c = -reach - 1; c <= reach + 1; ++c) {
            place_.push_back(r * ground.stride + c);
            const bool within = std::abs(r) <= reach && std::abs(c) <= reach && std::hypot(r, c) <= radius;
            cost_.push_back(within ? not_reached : out_of_reach);
        }
    from_.resize(place_.size());
}

void CutSearch::forget() {
    for (const std::int32_t cell : touched_) cost_[static_cast<std::size_t>(cell)] = not_reached;
    touched_.clear();
    bottom_.clear();
    queue_.clear();
}

bool CutSearch::bottom_at(std::int64_t place) {
    forget();
    start_ = place;
    const float bottom_m = ground_.height[place];
    const std::array<std::int32_t, 8> ways{-stride_ - 1, -stride_, -stride_ + 1, -1, 1,
                                           stride_ - 1,  stride_,  stride_ + 1};
    const auto take = [&](std::int32_t cell) {
        cost_[static_cast<std::size_t>(cell)] = 0;
        touched_.push_back(cell);
        bottom_.push_back(cell);
    };
    take(centre_);
    for (std::size_t i = 0; i < bottom_.size(); ++i) {
        const std::int32_t cell = bottom_[i];
        if (ground_.outlet[start_ + place_[static_cast<std::size_t>(cell)]]) return false;
        for (const std::int32_t way : ways) {
            const std::int32_t next = cell + way;
            const auto at = static_cast<std::size_t>(next);
            const float height = ground_.height[start_ + place_[at]];
            if (height < bottom_m) return false;
            if (height > bottom_m || cost_[at] == 0) continue;
            if (next < centre_ || cost_[at] == out_of_reach) return false;
            take(next);
        }
    }
    return true;
}

void CutSearch::push(std::int64_t cost, std::int32_t cell) {
    queue_.push_back({cost, cell});
    std::push_heap(queue_.begin(), queue_.end(), [](const Entry& a, const Entry& b) {
        return a.cost > b.cost || (a.cost == b.cost && a.cell > b.cell);
    });
}

CutSearch::Entry CutSearch::pop() {
    std::pop_heap(queue_.begin(), queue_.end(), [](const Entry& a, const Entry& b) {
        return a.cost > b.cost || (a.cost == b.cost && a.cell > b.cell);
    });
    const Entry entry = queue_.back();
    queue_.pop_back();
    return entry;
}

CutSearch::End CutSearch::search() {
    const float bottom_m = ground_.height[start_];
    const double top_m = static_cast<double>(bottom_m) + deepest_m_;
    const std::array<std::int32_t, 8> ways{-stride_ - 1, -stride_, -stride_ + 1, -1, 1,
                                           stride_ - 1,  stride_,  stride_ + 1};
    End end{not_reached, -1};
    for (const std::int32_t cell : bottom_) push(0, cell);
    while (!queue_.empty()) {
        const Entry entry = pop();
        if (entry.cost >= end.cost) break;
        if (entry.cost > cost_[static_cast<std::size_t>(entry.cell)]) continue;
        for (std::size_t way = 0; way < ways.size(); ++way) {
            const std::int32_t next = entry.cell + ways[way];
            const auto at = static_cast<std::size_t>(next);
            if (cost_[at] <= entry.cost) continue;
            const std::int64_t place = start_ + place_[at];
            const float height = ground_.height[place];
            const bool outlet = ground_.outlet[place] != 0;
            if (height > top_m || (outlet && height > bottom_m)) continue;
            const double depth_m = std::max(0.0, static_cast<double>(height) - static_cast<double>(bottom_m));
            const std::int64_t cost = entry.cost + cost_of(depth_m);
            if (cost >= cost_[at] || cost > end.cost) continue;
            const bool is_end = height < bottom_m || outlet;
            if (!is_end && cost == end.cost) continue;
            if (cost_[at] == not_reached) touched_.push_back(next);
            cost_[at] = cost;
            from_[at] = static_cast<std::uint8_t>(way);
            if (!is_end)
                push(cost, next);
            else if (cost < end.cost || next < end.cell)
                end = {cost, next};
        }
    }
    return end;
}

const CutSearch::Cut& CutSearch::cut() {
    cut_.cells.clear();
    cut_.depth_m = 0;
    cut_.squared_reach = 0;
    const End end = search();
    if (end.cell < 0) return cut_;
    const std::int64_t down = end.cell / stride_ - centre_ / stride_, along = end.cell % stride_ - centre_ % stride_;
    cut_.squared_reach = down * down + along * along;
    const float bottom_m = ground_.height[start_];
    const std::array<std::int32_t, 8> ways{-stride_ - 1, -stride_, -stride_ + 1, -1, 1,
                                           stride_ - 1,  stride_,  stride_ + 1};
    for (std::int32_t cell = end.cell; cost_[static_cast<std::size_t>(cell)] > 0;) {
        const std::int64_t place = start_ + place_[static_cast<std::size_t>(cell)];
        const float height = ground_.height[place];
        if (height > bottom_m) {
            cut_.cells.push_back(place);
            cut_.depth_m = std::max(cut_.depth_m, height - bottom_m);
        }
        cell -= ways[from_[static_cast<std::size_t>(cell)]];
    }
    return cut_;
}

}  // namespace soilhold::terrain
