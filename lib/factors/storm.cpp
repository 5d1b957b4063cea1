#include "factors/storm.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "factors/rain_energy.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

// Sums of tips written in hundredths of an inch must reach their limits in spite of rounding.
constexpr double hair_mm = 1e-6;
constexpr double mm_per_inch = 25.4;

void need_order(const Rain& rain) {
    const auto wrong = [](std::size_t i, const char* what) {
        throw std::invalid_argument("rain interval " + std::to_string(i + 1) + " " + what);
    };
    for (std::size_t i = 0; i < rain.size(); ++i) {
        if (!(rain[i].end_min > rain[i].start_min)) wrong(i, "does not end after it starts");
        if (!(rain[i].depth_mm >= 0.0)) wrong(i, "holds less than nothing");
        if (i > 0 && rain[i].start_min < rain[i - 1].end_min - 1e-9) wrong(i, "starts before the last one ends");
    }
}

/// Depth fallen up to any minute, straight within an interval and level between two.
class MassCurve {
  public:
    explicit MassCurve(const Rain& rain) : rain_(rain), before_(rain.size() + 1, 0.0) {
        for (std::size_t i = 0; i < rain.size(); ++i) before_[i + 1] = before_[i] + rain[i].depth_mm;
    }
    double until(double minute) const {
        const auto next = std::upper_bound(rain_.begin(), rain_.end(), minute,
                                           [](double m, const RainInterval& one) { return m < one.start_min; });
        if (next == rain_.begin()) return 0.0;
        const auto i = static_cast<std::size_t>(next - rain_.begin()) - 1;
        const RainInterval& one = rain_[i];
        const double share = std::min(1.0, (minute - one.start_min) / (one.end_min - one.start_min));
        return before_[i] + share * one.depth_mm;
    }

  private:
    const Rain& rain_;
    std::vector<double> before_;
};

}  // namespace

double largest_depth_mm(const Rain& rain, double window_min) {
    need_order(rain);
    const MassCurve curve(rain);
    // The mass curve is made of straight pieces, so the best window starts or ends where a piece does.
    double largest = 0.0;
    for (const RainInterval& one : rain)
        for (const double edge : {one.start_min, one.end_min})
            largest = std::max({largest, curve.until(edge + window_min) - curve.until(edge),
                                curve.until(edge) - curve.until(edge - window_min)});
    return largest;
}

std::vector<Rain> cut_into_storms(const Rain& rain, const StormRule& rule) {
    need_order(rain);
    const MassCurve curve(rain);
    std::vector<Rain> storms;
    bool open = false;
    double break_until = 0.0;
    for (const RainInterval& one : rain) {
        if (one.depth_mm <= 0.0) continue;
        if (!open && (storms.empty() || one.start_min >= break_until)) {
            storms.emplace_back();
            open = true;
        }
        storms.back().push_back(one);
        if (!open) continue;  // the last drops of a storm, within its break
        break_until = one.end_min + 60.0 * rule.break_hours;
        open = curve.until(break_until) - curve.until(one.end_min) >= rule.break_depth_mm - hair_mm;
    }
    return storms;
}

Storm storm_of(const Rain& rain, const StormRule& rule) {
    if (rain.empty()) throw std::invalid_argument("a storm holds at least one interval of rain");
    Storm storm;
    storm.start_min = rain.front().start_min;
    storm.end_min = rain.back().end_min;
    storm.largest_15_min_mm = largest_depth_mm(rain, 15.0);
    storm.I30_mm_per_h = std::min(rule.I30_limit_mm_per_h, 2.0 * largest_depth_mm(rain, 30.0));
    for (const RainInterval& one : rain) {
        const double mm_per_hour = one.depth_mm / (one.end_min - one.start_min) * 60.0;
        storm.depth_mm += one.depth_mm;
        // In the US units that Handbook 537's curve was fitted in: its SI form is rounded.
        storm.energy_537 +=
            one.depth_mm / mm_per_inch * unit_energy_537_us(mm_per_hour / mm_per_inch) * units::mj_ha_per_ft_tonf_acre;
        storm.energy_brown_foster += one.depth_mm * unit_energy_brown_foster(mm_per_hour);
    }
    return storm;
}

bool counts(const Storm& storm, const StormRule& rule) {
    return storm.depth_mm >= rule.least_depth_mm - hair_mm || storm.largest_15_min_mm >= rule.least_15_min_mm - hair_mm;
}

}  // namespace soilhold::factors
