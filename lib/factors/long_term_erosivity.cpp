#include "factors/long_term_erosivity.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <chrono>
#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

namespace {

constexpr double minutes_a_day = 1440.0;

double minute_of(std::chrono::sys_days day) {
    return static_cast<double>(day.time_since_epoch().count()) * minutes_a_day;
}

/// The same date some years on; the first of March for the 29th of February.
std::chrono::sys_days years_later(std::chrono::year_month_day date, int years) {
    const std::chrono::year_month_day later = date + std::chrono::years{years};
    if (later.ok()) return later;
    return std::chrono::sys_days{later.year() / std::chrono::March / 1};
}

std::vector<YearOfRain> twelve_month_years(const GaugeRecord& record, const RecordErosivity& result) {
    std::vector<YearOfRain> years;
    const auto first_day = static_cast<int>(std::floor(record.whole.start_min / minutes_a_day));
    const std::chrono::year_month_day begins{std::chrono::sys_days{std::chrono::days{first_day}}};
    for (int i = 0;; ++i) {
        const double start = minute_of(years_later(begins, i)), end = minute_of(years_later(begins, i + 1));
        if (start >= record.whole.end_min) break;
        const auto within = [&](const Period& one) {
            return std::max(0.0, std::min(one.end_min, end) - std::max(one.start_min, start));
        };
        YearOfRain year;
        year.year = static_cast<int>(begins.year()) + i;
        double recorded = within(record.whole);
        for (const Period& gap : record.missing) recorded -= within(gap);
        year.recorded_share = recorded / (end - start);
        for (const JudgedStorm& judged : result.storms) {
            const double began = std::max(judged.storm.start_min, record.whole.start_min);
            if (began < start || began >= end) continue;
            year.rain_mm += judged.storm.depth_mm;
            if (!judged.counted) continue;
            ++year.storms;
            year.EI30_537 += result.interval_factor * judged.storm.EI30_537();
            year.EI30_brown_foster += result.interval_factor * judged.storm.EI30_brown_foster();
        }
        years.push_back(year);
    }
    return years;
}

void keep_full(std::vector<YearOfRain>& years) {
    std::erase_if(years, [](const YearOfRain& year) { return year.recorded_share < least_recorded_share; });
}

}  // namespace

spread::Interval mean_of_years(const std::vector<double>& annual, double& year_to_year) {
    if (annual.empty()) throw std::invalid_argument("a mean of years needs one year at least");
    const auto n = static_cast<double>(annual.size());
    double mean = 0.0, squares = 0.0;
    for (const double value : annual) mean += value / n;
    if (!(mean > 0.0)) throw std::invalid_argument("the mean of the years is not above 0");
    for (const double value : annual) squares += (value / mean - 1.0) * (value / mean - 1.0);
    const double degrees = usual_degrees + n - 1.0;
    year_to_year = std::sqrt((usual_degrees * usual_year_to_year * usual_year_to_year + squares) / degrees);
    const double t = boost::math::quantile(boost::math::students_t(degrees), 0.9);
    const double half = t * std::sqrt(std::log(1.0 + year_to_year * year_to_year / n));
    return {mean, mean * std::exp(-half), mean * std::exp(half)};
}

std::optional<LongTermErosivity> long_term_erosivity(const GaugeRecord& record, const RecordErosivity& result) {
    LongTermErosivity found;
    found.years = result.years;
    keep_full(found.years);
    if (found.years.empty()) {
        found.calendar_years = false;
        found.years = twelve_month_years(record, result);
        keep_full(found.years);
    }
    std::vector<double> brown_foster, by_537;
    double sum = 0.0;
    for (const YearOfRain& year : found.years) {
        brown_foster.push_back(year.EI30_brown_foster);
        by_537.push_back(year.EI30_537);
        sum += year.EI30_brown_foster;
    }
    if (!(sum > 0.0)) return std::nullopt;
    double unused = 0.0;
    found.R_brown_foster = mean_of_years(brown_foster, found.year_to_year);
    found.R_537 = mean_of_years(by_537, unused);
    return found;
}

std::string years_in_words(const LongTermErosivity& R) {
    const auto n = R.years.size();
    if (!R.calendar_years) return n == 1 ? "twelve months" : fmt::format("{} times twelve months", n);
    const int first = R.years.front().year, last = R.years.back().year;
    if (n == 1) return fmt::format("1 full year ({})", first);
    return fmt::format("{} full years ({} to {}{})", n, first, last,
                       static_cast<int>(n) == last - first + 1 ? "" : ", not all of them");
}

}  // namespace soilhold::factors
