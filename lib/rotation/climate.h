/// The weather that a calendar of cover needs, from what a place has at hand: months or half-months of temperature and
/// rain, a wave for the temperature, and when in the year the erosivity falls.
///
/// Nothing is made up: a place without temperature or rain has no calendar. Each stand-in says so in a remark.
/// @source our assumptions, said at each function; the shares of erosivity come better from a gauge record
///         (factors/gauge_record.h) or the handbook's map
#pragma once

#include <array>

#include "rotation/rotation.h"

namespace soilhold::rotation {

using ByMonth = std::array<double, 12>;

/// Means of half-months from means of months: a quarter of the way to the neighbouring month (our assumption).
ByHalfMonth half_months_of_means(const ByMonth& means);

/// Sums of half-months from sums of months, by days.
ByHalfMonth half_months_of_sums(const ByMonth& sums);

/// T = mean - amplitude cos(2 pi (day - coldest) / 365) at the middle of each half-month (our assumption).
/// @param amplitude_C  half the way from the coldest to the warmest, >= 0
ByHalfMonth temperature_wave(double mean_C, double amplitude_C, double coldest_day = 20.0);

/// Shares of the erosivity in proportion to p^2 of the months, halved by days (our assumption, after the modified
/// Fournier index). @throws std::invalid_argument for rain that is negative or none at all
ByHalfMonth erosivity_by_rain_squared(const ByMonth& rain_mm);

/// Shares in proportion to the rain of each half-month (our assumption; understates summer storms).
ByHalfMonth erosivity_by_rain(const ByHalfMonth& rain_mm);

/// What is at hand of a place. Give temperature one way and rain one way.
struct Weather {
    std::optional<ByHalfMonth> half_month_temperature_C{};
    std::optional<ByMonth> month_temperature_C{};
    std::optional<double> mean_temperature_C{}, temperature_amplitude_C{};  ///< both, for a wave
    std::optional<ByHalfMonth> half_month_rain_mm{};
    std::optional<ByMonth> month_rain_mm{};
    std::optional<ByHalfMonth> erosivity_share{};  ///< of a gauge record or given
    double erosivity = 0.0;                        ///< R, MJ mm/(ha h yr)
    source::Origin temperature_origin, rain_origin, erosivity_origin;
};

/// @throws std::invalid_argument that says what is missing or out of range: temperature, rain, R above 0, shares that
/// sum
///         to 1 within 0.005
Climate climate_of(const Weather& weather);

}  // namespace soilhold::rotation
