#include "report/year_flags.h"

#include <algorithm>

#include "report/text_block.h"

namespace soilhold::report {

namespace {

struct Span {
    double from, to;
};

constexpr double pole_room = 2.5, letter_room = 3.0;

class Levels {
  public:
    bool is_free(std::size_t level, const Span& span) const {
        if (level >= taken_.size()) return true;
        return std::none_of(taken_[level].begin(), taken_[level].end(),
                            [&](const Span& other) { return span.from < other.to && other.from < span.to; });
    }
    /// A label on a level whose pole goes down through those below.
    bool fits(std::size_t level, const Span& label, double x) const {
        for (std::size_t below = 0; below < level; ++below)
            if (!is_free(below, {x - pole_room, x + pole_room})) return false;
        return is_free(level, label);
    }
    void take(std::size_t level, const Span& label, double x) {
        if (taken_.size() <= level) taken_.resize(level + 1);
        taken_[level].push_back(label);
        for (std::size_t below = 0; below < level; ++below) taken_[below].push_back({x - 0.5, x + 0.5});
    }

  private:
    std::vector<std::vector<Span>> taken_;
};

}  // namespace

std::vector<PlacedFlag> placed_flags(const std::vector<YearFlag>& flags, double least_x, double most_x, double size,
                                     const Measure& measure) {
    std::vector<PlacedFlag> placed;
    Levels levels;
    // From the right: a flag that flies to the right then meets only those already set.
    for (auto flag = flags.rbegin(); flag != flags.rend(); ++flag) {
        const double x = least_x + (most_x - least_x) * (static_cast<double>(flag->half_month) + 0.5) / 24.0;
        std::string words = flag->words;
        const double room = std::max(most_x - x, x - least_x) - letter_room;
        std::size_t letters = words.size();
        while (measure(words, size, false) > room && letters > 4) words = shortened(flag->words, --letters);
        const double width = measure(words, size, false) + letter_room;
        const bool rightwards = x + width <= most_x + 1.0;
        const Span label = rightwards ? Span{x, x + width} : Span{x - width, x};
        std::size_t level = 0;
        while (!levels.fits(level, label, x) && level < 12) ++level;
        levels.take(level, {label.from - pole_room, label.to + pole_room}, x);
        placed.push_back({x, label.from, label.to, level, words});
    }
    return placed;
}

}  // namespace soilhold::report
