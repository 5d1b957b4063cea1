#include "rotation/climate.h"

#include <cmath>
#include <numbers>
#include <numeric>
#include <stdexcept>

namespace soilhold::rotation {

namespace {

double days_of(std::size_t half_month) { return first_day(half_month + 1) - first_day(half_month); }

void need_rain(const ByHalfMonth& rain_mm) {
    for (const double rain : rain_mm)
        if (!(rain >= 0 && rain < 3000)) throw std::invalid_argument("rain of a half-month must not be negative");
    if (!(std::accumulate(rain_mm.begin(), rain_mm.end(), 0.0) > 0))
        throw std::invalid_argument("a year without rain has no erosivity");
}

}  // namespace

ByHalfMonth half_months_of_means(const ByMonth& means) {
    ByHalfMonth result{};
    for (std::size_t m = 0; m < 12; ++m) {
        result[2 * m] = means[m] + 0.25 * (means[(m + 11) % 12] - means[m]);
        result[2 * m + 1] = means[m] + 0.25 * (means[(m + 1) % 12] - means[m]);
    }
    return result;
}

ByHalfMonth half_months_of_sums(const ByMonth& sums) {
    ByHalfMonth result{};
    for (std::size_t m = 0; m < 12; ++m) {
        const double days = days_of(2 * m) + days_of(2 * m + 1);
        for (const std::size_t i : {2 * m, 2 * m + 1}) result[i] = sums[m] * days_of(i) / days;
    }
    return result;
}

ByHalfMonth temperature_wave(double mean_C, double amplitude_C, double coldest_day) {
    if (!(amplitude_C >= 0)) throw std::invalid_argument("the amplitude of the temperature must not be negative");
    ByHalfMonth result{};
    for (std::size_t i = 0; i < half_months; ++i) {
        const double day = first_day(i) + 0.5 * days_of(i);
        result[i] = mean_C - amplitude_C * std::cos(2.0 * std::numbers::pi * (day - coldest_day) / 365.0);
    }
    return result;
}

ByHalfMonth erosivity_by_rain_squared(const ByMonth& rain_mm) {
    ByMonth squares{};
    double sum = 0;
    for (std::size_t m = 0; m < 12; ++m) {
        if (!(rain_mm[m] >= 0)) throw std::invalid_argument("rain of a month must not be negative");
        sum += squares[m] = rain_mm[m] * rain_mm[m];
    }
    if (!(sum > 0)) throw std::invalid_argument("a year without rain has no erosivity");
    for (double& square : squares) square /= sum;
    return half_months_of_sums(squares);
}

ByHalfMonth erosivity_by_rain(const ByHalfMonth& rain_mm) {
    need_rain(rain_mm);
    const double sum = std::accumulate(rain_mm.begin(), rain_mm.end(), 0.0);
    ByHalfMonth result{};
    for (std::size_t i = 0; i < half_months; ++i) result[i] = rain_mm[i] / sum;
    return result;
}

Climate climate_of(const Weather& weather) {
    Climate climate;
    const auto remark = [&](source::Weight weight, const char* code, const char* text) {
        climate.remarks.push_back({weight, code, text});
    };
    climate.temperature_origin = weather.temperature_origin;
    climate.rain_origin = weather.rain_origin;
    climate.erosivity_origin = weather.erosivity_origin;
    if (weather.half_month_temperature_C) {
        climate.temperature_C = *weather.half_month_temperature_C;
    } else if (weather.month_temperature_C) {
        climate.temperature_C = half_months_of_means(*weather.month_temperature_C);
    } else if (weather.mean_temperature_C && weather.temperature_amplitude_C) {
        climate.temperature_C = temperature_wave(*weather.mean_temperature_C, *weather.temperature_amplitude_C);
        remark(source::Weight::note, "temperature-wave",
               "The year's temperature is a wave from a mean and an amplitude, our assumption; means of the months do "
               "better.");
    } else {
        throw std::invalid_argument(
            "a calendar of cover needs the temperature of the place: 12 means of months, or a "
            "mean and an amplitude");
    }
    for (const double temperature : climate.temperature_C)
        if (!(temperature > -60 && temperature < 50))
            throw std::invalid_argument("a mean temperature lies within -60 to 50 C");
    if (weather.half_month_rain_mm)
        climate.rain_mm = *weather.half_month_rain_mm;
    else if (weather.month_rain_mm)
        climate.rain_mm = half_months_of_sums(*weather.month_rain_mm);
    else
        throw std::invalid_argument("a calendar of cover needs the rain of the place, by months or half-months");
    need_rain(climate.rain_mm);
    if (weather.erosivity_share) {
        climate.erosivity_share = *weather.erosivity_share;
    } else if (weather.month_rain_mm) {
        climate.erosivity_share = erosivity_by_rain_squared(*weather.month_rain_mm);
        climate.erosivity_origin = source::origin_of("erosivity-by-rain-squared");
        remark(source::Weight::caution, "erosivity-by-rain-squared",
               "When in the year the erosivity falls is taken from the squares of the months' rain, our assumption; a "
               "gauge record or the handbook's map does better.");
    } else {
        climate.erosivity_share = erosivity_by_rain(climate.rain_mm);
        climate.erosivity_origin = source::origin_of("erosivity-by-rain");
        remark(source::Weight::caution, "erosivity-by-rain",
               "When in the year the erosivity falls is taken from the rain itself, our assumption; it understates the "
               "storms of summer.");
    }
    double sum = 0;
    for (const double share : climate.erosivity_share) {
        if (!(share >= 0)) throw std::invalid_argument("a share of the erosivity must not be negative");
        sum += share;
    }
    if (std::abs(sum - 1.0) > 0.005) throw std::invalid_argument("the shares of the year's erosivity must sum to 1");
    for (double& share : climate.erosivity_share) share /= sum;
    if (!(weather.erosivity > 0)) throw std::invalid_argument("the year's erosivity R must be above 0");
    climate.erosivity = weather.erosivity;
    return climate;
}

}  // namespace soilhold::rotation
