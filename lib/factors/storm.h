/// One storm from a gauge chart: its energy E, its greatest 30-minute intensity I30, and their product EI30.
///
/// A chart is cumulative: clock and depth at the points where its slope changes. Fixed hourly intervals flatten the
/// bursts: EI30 from them is too small by a factor of about 1.7 (456 storms in China, Yin et al. 2007, read).
/// @source AH 537 (1978) p. 5-6 and its appendix; AH 703 (1997) ch. 2 (from memory)
#pragma once

#include <span>
#include <vector>

namespace soilhold::factors {

struct GaugeReading {
    double minutes = 0.0;   ///< since the first reading
    double depth_mm = 0.0;  ///< fallen since the first reading
};

/// Rain of one intensity between two readings.
struct RainIncrement {
    double minutes = 0.0;
    double depth_mm = 0.0;
    double intensity_mm_h() const { return 60.0 * depth_mm / minutes; }
};

/// The pieces between the readings.
/// @throws std::invalid_argument for fewer than two readings, clocks that do not advance, or depths that fall
std::vector<RainIncrement> increments_of(std::span<const GaugeReading> chart);

double storm_depth_mm(std::span<const GaugeReading> chart);

/// E = sum e_i d_i by Handbook 537's unit energy, MJ/ha.
double storm_energy_537(std::span<const GaugeReading> chart);

/// E = sum e_i d_i by Brown & Foster's unit energy, MJ/ha.
double storm_energy_brown_foster(std::span<const GaugeReading> chart);

/// Largest depth in any `minutes` on end, mm, reading between the points of the chart.
double greatest_depth_mm(std::span<const GaugeReading> chart, double minutes);

/// I30 = twice the largest depth in 30 minutes; of a shorter storm twice its depth. mm/h
double half_hour_intensity_mm_h(double greatest_half_hour_depth_mm);

/// EI30, MJ mm/(ha h). @param energy  MJ/ha @param half_hour_intensity  mm/h
double storm_erosivity(double energy, double half_hour_intensity);

/// Whether a storm counts: 12.7 mm in all, or at least 6.35 mm (not 12.7) within 15 minutes.
bool storm_counts(double depth_mm, double greatest_quarter_hour_depth_mm);

}  // namespace soilhold::factors
