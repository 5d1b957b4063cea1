#include "watershed/ranking.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "spread/independent.h"
#include "spread/uncertain.h"

namespace soilhold::watershed {

namespace {

/// Field indices, best first.
std::vector<std::uint32_t> by_value(std::span<const double> values) {
    std::vector<std::uint32_t> order(values.size());
    std::iota(order.begin(), order.end(), 0U);
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return values[a] > values[b]; });
    return order;
}

void check(std::span<const Ranked> fields, const RankSettings& settings) {
    if (settings.draws < 1) throw std::invalid_argument("a ranking needs at least one draw");
    for (const Ranked& field : fields)
        if (!std::isfinite(field.value) || !(field.own_log_sd >= 0) || !(field.group_log_sd >= 0) ||
            (field.taken && !(field.taken->whole_log_sd >= 0)))
            throw std::invalid_argument("a ranking needs finite values and doubts that are not negative");
}

/// Scores of each numbered source, drawn once.
using Sources = std::map<std::size_t, std::vector<double>>;

/// The factor by which shared doubts move a value in each draw.
std::vector<double> moves(const std::vector<SharedDoubt>& shared, Sources& sources, const RankSettings& settings) {
    constexpr std::uint64_t sources_begin = std::uint64_t{1} << 41;
    std::vector<double> moved(settings.draws, 0.0);
    for (const SharedDoubt& one : shared) {
        auto [scores, fresh] = sources.try_emplace(one.source);
        if (fresh)
            scores->second = spread::independent_scores(sources_begin + one.source, settings.draws, settings.seed);
        for (std::size_t i = 0; i < moved.size(); ++i) {
            const double z = scores->second[i] / spread::score_of_stated_range;
            moved[i] += z < 0 ? -z * one.low : z * one.high;
        }
    }
    for (double& one : moved) one = std::exp(one);
    return moved;
}

/// What is left of a whole in each draw, over the field's common doubts.
std::vector<double> left(std::size_t f, const Ranked& field, Sources& sources, const RankSettings& settings) {
    constexpr std::uint64_t wholes_begin = std::uint64_t{1} << 42;
    std::vector<double> whole = moves(field.shared, sources, settings);
    if (!field.taken) {
        for (double& one : whole) one *= field.value;
        return whole;
    }
    const std::vector<double> alone = spread::independent_scores(wholes_begin + f, settings.draws, settings.seed);
    const std::vector<double> taken = moves(field.taken->shared, sources, settings);
    for (std::size_t i = 0; i < whole.size(); ++i)
        whole[i] = std::max(
            0.0, (field.value + field.taken->value) * whole[i] * std::exp(field.taken->whole_log_sd * alone[i]) -
                     field.taken->value * taken[i]);
    return whole;
}

/// Values of all fields in all draws: [field][draw].
std::vector<std::vector<float>> drawn(std::span<const Ranked> fields, const RankSettings& settings) {
    constexpr std::uint64_t groups_begin = std::uint64_t{1} << 40;
    Sources groups, sources;
    std::vector<std::vector<float>> values;
    values.reserve(fields.size());
    for (std::size_t f = 0; f < fields.size(); ++f) {
        const Ranked& field = fields[f];
        const std::vector<double> own = spread::independent_scores(f, settings.draws, settings.seed);
        auto [group, fresh] = groups.try_emplace(field.group);
        if (fresh)
            group->second = spread::independent_scores(groups_begin + field.group, settings.draws, settings.seed);
        const std::vector<double> central = left(f, field, sources, settings);
        std::vector<float> column(settings.draws);
        for (std::size_t i = 0; i < column.size(); ++i)
            column[i] = static_cast<float>(central[i] *
                                           std::exp(field.own_log_sd * own[i] + field.group_log_sd * group->second[i]));
        values.push_back(std::move(column));
    }
    return values;
}

/// Fields of one group can't be told from its first.
void find_ties(std::vector<Rank>& ranks, const std::vector<std::uint32_t>& order,
               const std::vector<std::vector<float>>& values) {
    std::size_t group = 0;
    std::size_t begin = 0;
    while (begin < order.size()) {
        ++group;
        const std::vector<float>& best = values[order[begin]];
        std::size_t end = begin + 1;
        ranks[order[begin]].tie_group = group;
        for (; end < order.size(); ++end) {
            const std::vector<float>& other = values[order[end]];
            std::size_t before = 0;
            for (std::size_t i = 0; i < best.size(); ++i) before += other[i] >= best[i] ? 1U : 0U;
            if (4 * before <= best.size()) break;
            ranks[order[end]].tie_group = group;
        }
        begin = end;
    }
}

}  // namespace

std::vector<Rank> ranking(std::span<const Ranked> fields, const RankSettings& settings) {
    check(fields, settings);
    const std::size_t n = fields.size();
    std::vector<Rank> ranks(n);
    std::vector<double> central(n);
    for (std::size_t f = 0; f < n; ++f) central[f] = fields[f].value;
    const std::vector<std::uint32_t> order = by_value(central);
    for (std::size_t place = 0; place < n; ++place) ranks[order[place]].place = place + 1;

    const std::vector<std::vector<float>> values = drawn(fields, settings);
    std::vector<std::vector<std::uint32_t>> places(n, std::vector<std::uint32_t>(settings.draws));
    std::vector<double> one(n);
    for (std::size_t i = 0; i < settings.draws; ++i) {
        for (std::size_t f = 0; f < n; ++f) one[f] = values[f][i];
        const std::vector<std::uint32_t> now = by_value(one);
        for (std::uint32_t place = 0; place < n; ++place) places[now[place]][i] = place + 1;
    }
    const auto tenth = static_cast<std::ptrdiff_t>((settings.draws - 1) / 10);
    for (std::size_t f = 0; f < n; ++f) {
        auto& mine = places[f];
        const auto in_top = std::count_if(mine.begin(), mine.end(), [&](auto place) { return place <= settings.top; });
        ranks[f].chance_in_top = static_cast<double>(in_top) / static_cast<double>(settings.draws);
        std::nth_element(mine.begin(), mine.begin() + tenth, mine.end());
        ranks[f].likely_first = mine[static_cast<std::size_t>(tenth)];
        std::nth_element(mine.begin(), mine.end() - 1 - tenth, mine.end());
        ranks[f].likely_last = *(mine.end() - 1 - tenth);
    }
    find_ties(ranks, order, values);
    return ranks;
}

double carried_by_top(std::span<const double> tons, double share) {
    const double whole = std::accumulate(tons.begin(), tons.end(), 0.0);
    if (!(whole > 0)) return 0;
    std::vector<double> sorted(tons.begin(), tons.end());
    std::sort(sorted.begin(), sorted.end(), std::greater<>());
    const auto count =
        static_cast<std::ptrdiff_t>(std::max<long>(1, std::lround(share * static_cast<double>(sorted.size()))));
    return std::accumulate(sorted.begin(), sorted.begin() + count, 0.0) / whole;
}

}  // namespace soilhold::watershed
