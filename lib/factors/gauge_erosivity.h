/// R of a place from its gauge record, as an estimate takes it: the mean of the years at hand, and its doubt.
///
/// The sums of storms are `gauge_record.h`, the mean and its interval `long_term_erosivity.h`; here both become one
/// input with its working. The interval of central 80 % is carried on to 19 in 20 by the same lognormal law. It counts
/// the years alone: not the gauge, nor the energy equation, nor a changing climate.
/// @source the two headers named; from 80 % to 19 in 20: ours (Student's t has somewhat longer tails)
#pragma once

#include <array>
#include <optional>

#include "factors/long_term_erosivity.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// Whose energy of rain: with the maps of Handbook 537 goes its own.
enum class RainEnergy { brown_foster, handbook_537 };

/// What a gauge record says of R, already summed up storm by storm.
struct GaugeErosivity {
    LongTermErosivity long_term;
    RainEnergy energy = RainEnergy::brown_foster;
    std::optional<double> interval_min{};       ///< of a logger
    double interval_factor = 1.0;               ///< already in the EI30 of the years
    std::array<double, 24> half_month_share{};  ///< of EI30, over the full years: when in the year the erosivity falls
    source::Remarks remarks{};                  ///< of the record: missing periods, few years, a coarse interval
    source::Origin record{};                    ///< which record, and whose
};

/// @throws std::invalid_argument when the record holds no year to average (the sentence says what it does hold), or
///         depths of intervals above an hour
GaugeErosivity gauge_erosivity(const GaugeRecord& record, RainEnergy energy, source::Origin origin);

/// R, MJ mm/(ha h yr), with the range of its years and the working.
spread::Uncertain erosivity_of_gauge(const GaugeErosivity& gauge);

}  // namespace soilhold::factors
