#include "report/loss_classes.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace soilhold::report {

namespace {

struct Grain {
    double apart = 0, radius = 0;  ///< points
};

constexpr std::array<Grain, 5> grains{{{0, 0}, {6.6, 0.42}, {4.6, 0.55}, {3.4, 0.66}, {2.6, 0.8}}};

/// -0.5..0.5, by splitmix64 of a place on the lattice.
double jitter(std::int64_t row, std::int64_t column, std::uint64_t salt) {
    std::uint64_t x = static_cast<std::uint64_t>(row) * 0x9E3779B97F4A7C15U + static_cast<std::uint64_t>(column) + salt;
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9U;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBU;
    x ^= x >> 31;
    return static_cast<double>(x >> 11) / 9007199254740992.0 - 0.5;
}

}  // namespace

std::optional<std::size_t> class_of_loss(std::optional<double> times_T) {
    if (!times_T || !std::isfinite(*times_T)) return std::nullopt;
    std::size_t loss_class = 0;
    for (const double mark : class_breaks) loss_class += *times_T >= mark ? 1U : 0U;
    return loss_class;
}

std::string class_in_words(std::size_t loss_class) {
    static const std::array<std::string, 5> words{"less than half of T", "half of T to T", "T to 2 times T",
                                                  "2 to 4 times T", "4 times T and more"};
    return words.at(loss_class);
}

double ink_of_class(std::size_t loss_class) {
    const Grain& grain = grains.at(loss_class);
    if (grain.apart <= 0) return 0.0;
    return std::numbers::pi * grain.radius * grain.radius / (grain.apart * grain.apart * std::numbers::sqrt3 / 2);
}

Dots stipple(const Rings& rings, std::size_t loss_class, const std::vector<Box>& free, double fineness) {
    const Grain grain{grains.at(loss_class).apart * fineness, grains.at(loss_class).radius * fineness};
    Dots dots;
    dots.radius = grain.radius;
    if (grain.apart <= 0) return dots;
    const Box box = bounds_of(rings);
    const double rise = grain.apart * std::numbers::sqrt3 / 2;
    for (auto row = static_cast<std::int64_t>(std::floor(box.top / rise));
         static_cast<double>(row) * rise <= box.bottom; ++row) {
        const double shift = row % 2 == 0 ? 0.0 : 0.5;
        for (auto column = static_cast<std::int64_t>(std::floor(box.left / grain.apart)) - 1;
             static_cast<double>(column) * grain.apart <= box.right; ++column) {
            const Point at{(static_cast<double>(column) + shift + 0.32 * jitter(row, column, 1)) * grain.apart,
                           static_cast<double>(row) * rise + 0.32 * jitter(row, column, 2) * grain.apart};
            const bool kept_free = std::any_of(free.begin(), free.end(), [&](const Box& one) {
                const Box wide = grown(one, grain.radius);
                return at.x > wide.left && at.x < wide.right && at.y > wide.top && at.y < wide.bottom;
            });
            if (!kept_free && is_inside(rings, at) && distance_to_edge(rings, at) >= grain.radius + 0.3)
                dots.at.push_back(at);
        }
    }
    return dots;
}

}  // namespace soilhold::report
