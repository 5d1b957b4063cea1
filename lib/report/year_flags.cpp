#include "report/year_flags.h"

#include <algorithm>

#include "report/text_block.h"

namespace soilhold::report {

namespace {

struct Span {
    double from, to;
    bool meets(const Span& other) const { return from < other.to && other.from < to; }
};

constexpr double pole_room = 2.5, letter_room = 3.0;
constexpr std::size_t most_levels = 9, most_lines = 4;
/// A flag takes no more of the panel than this, before its words go on a second line.
constexpr double most_share = 0.42;

/// Words and poles on the lines over a panel.
class Levels {
  public:
    bool words_fit(std::size_t level, std::size_t lines, const Span& words) const {
        for (std::size_t at = level; at < level + lines; ++at)
            if (meets(words_, at, words)) return false;
        return true;
    }
    bool poles_are_clear(std::size_t level, std::size_t lines, const Span& words, double x) const {
        for (std::size_t at = level; at < level + lines; ++at)
            if (meets(poles_, at, words)) return false;
        for (std::size_t below = 0; below < level; ++below)
            if (meets(words_, below, {x - pole_room, x + pole_room})) return false;
        return true;
    }
    void take(std::size_t level, std::size_t lines, const Span& words, double x) {
        const std::size_t top = level + lines;
        if (words_.size() < top) words_.resize(top);
        if (poles_.size() < top) poles_.resize(top);
        for (std::size_t at = level; at < top; ++at) words_[at].push_back(words);
        for (std::size_t at = 0; at < top; ++at) poles_[at].push_back({x - 0.1, x + 0.1});
    }

  private:
    static bool meets(const std::vector<std::vector<Span>>& taken, std::size_t level, const Span& span) {
        return level < taken.size() && std::any_of(taken[level].begin(), taken[level].end(),
                                                   [&](const Span& other) { return span.meets(other); });
    }
    std::vector<std::vector<Span>> words_, poles_;
};

void place(PlacedFlag& flag, Levels& levels) {
    const Span words{flag.left - (flag.left < flag.x ? pole_room : -0.5),
                     flag.right + (flag.right > flag.x ? pole_room : -0.5)};
    const std::size_t lines = flag.lines.size();
    std::size_t level = 0;
    while (level < most_levels &&
           !(levels.words_fit(level, lines, words) && levels.poles_are_clear(level, lines, words, flag.x)))
        ++level;
    // A pole that can't keep clear goes behind the words.
    if (level == most_levels)
        for (level = 0; !levels.words_fit(level, lines, words);) ++level;
    levels.take(level, lines, words, flag.x);
    flag.level = level;
}

}  // namespace

std::vector<PlacedFlag> placed_flags(const std::vector<YearFlag>& flags, double least_x, double most_x, double size,
                                     const Measure& measure, double heading) {
    std::vector<PlacedFlag> placed;
    for (const YearFlag& flag : flags) {
        PlacedFlag one;
        one.x = least_x + (most_x - least_x) * (static_cast<double>(flag.half_month) + 0.5) / 24.0;
        one.lines = broken(flag.words, most_share * (most_x - least_x), {size, false, 1.2}, measure, most_lines);
        if (one.lines.empty()) continue;
        double width = 0;
        for (const std::string& line : one.lines) width = std::max(width, measure(line, size, false) + letter_room);
        const bool rightwards = one.x + width <= most_x + 1.0;
        one.left = rightwards ? one.x : one.x - width;
        one.right = rightwards ? one.x + width : one.x;
        placed.push_back(std::move(one));
    }
    // Those that fly to the right from the right, then those that fly to the left from the left: each then stands over
    // the poles that its words would cross.
    Levels levels;
    if (heading > 0) levels.take(0, 1, {least_x, least_x + heading + letter_room}, least_x);
    for (auto flag = placed.rbegin(); flag != placed.rend(); ++flag)
        if (flag->right > flag->x) place(*flag, levels);
    for (PlacedFlag& flag : placed)
        if (flag.left < flag.x) place(flag, levels);
    return placed;
}

}  // namespace soilhold::report
