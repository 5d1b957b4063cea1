#include "factors/storm.h"

#include <algorithm>
#include <stdexcept>

#include "factors/rain_energy.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

constexpr double mm_per_inch = 25.4;

double depth_at(std::span<const GaugeReading> chart, double minutes) {
    if (minutes <= chart.front().minutes) return chart.front().depth_mm;
    for (std::size_t i = 1; i < chart.size(); ++i)
        if (minutes <= chart[i].minutes) {
            const double share = (minutes - chart[i - 1].minutes) / (chart[i].minutes - chart[i - 1].minutes);
            return chart[i - 1].depth_mm + share * (chart[i].depth_mm - chart[i - 1].depth_mm);
        }
    return chart.back().depth_mm;
}

}  // namespace

std::vector<RainIncrement> increments_of(std::span<const GaugeReading> chart) {
    if (chart.size() < 2) throw std::invalid_argument("a storm needs at least two readings of the gauge");
    std::vector<RainIncrement> increments;
    for (std::size_t i = 1; i < chart.size(); ++i) {
        const RainIncrement piece{chart[i].minutes - chart[i - 1].minutes, chart[i].depth_mm - chart[i - 1].depth_mm};
        if (!(piece.minutes > 0))
            throw std::invalid_argument("the clock of a gauge must advance from reading to reading");
        if (!(piece.depth_mm >= 0)) throw std::invalid_argument("the depth in a gauge must not fall during a storm");
        increments.push_back(piece);
    }
    return increments;
}

double storm_depth_mm(std::span<const GaugeReading> chart) {
    double depth = 0;
    for (const RainIncrement& piece : increments_of(chart)) depth += piece.depth_mm;
    return depth;
}

double storm_energy_537(std::span<const GaugeReading> chart) {
    double energy = 0;  // ft tonf/acre, the unit in which the curve was fitted
    for (const RainIncrement& piece : increments_of(chart))
        energy += unit_energy_537_us(piece.intensity_mm_h() / mm_per_inch) * piece.depth_mm / mm_per_inch;
    return energy * units::mj_ha_per_ft_tonf_acre;
}

double storm_energy_brown_foster(std::span<const GaugeReading> chart) {
    double energy = 0;
    for (const RainIncrement& piece : increments_of(chart))
        energy += unit_energy_brown_foster(piece.intensity_mm_h()) * piece.depth_mm;
    return energy;
}

double greatest_depth_mm(std::span<const GaugeReading> chart, double minutes) {
    if (!(minutes > 0)) throw std::invalid_argument("a stretch of time must be longer than 0 minutes");
    double greatest =
        std::min(storm_depth_mm(chart), depth_at(chart, chart.front().minutes + minutes) - chart.front().depth_mm);
    // The depth in a moving window is piecewise linear: its peak has a reading at one of its ends.
    for (const GaugeReading& reading : chart) {
        greatest = std::max(greatest, depth_at(chart, reading.minutes + minutes) - reading.depth_mm);
        greatest = std::max(greatest, reading.depth_mm - depth_at(chart, reading.minutes - minutes));
    }
    return greatest;
}

double half_hour_intensity_mm_h(double greatest_half_hour_depth_mm) {
    if (!(greatest_half_hour_depth_mm >= 0)) throw std::invalid_argument("a depth of rain must not be negative");
    return 2.0 * greatest_half_hour_depth_mm;
}

double storm_erosivity(double energy, double half_hour_intensity) {
    if (!(energy >= 0 && half_hour_intensity >= 0))
        throw std::invalid_argument("the energy and intensity of a storm must not be negative");
    return energy * half_hour_intensity;
}

bool storm_counts(double depth_mm, double greatest_quarter_hour_depth_mm) {
    return depth_mm >= 12.7 || greatest_quarter_hour_depth_mm >= 6.35;
}

}  // namespace soilhold::factors
