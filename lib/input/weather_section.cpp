#include "input/weather_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "input/figure.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;

/// Warmer or colder no place is in the mean of a half-month.
constexpr double coldest_C = -55, warmest_C = 45;
/// Nor in the mean of a year where crops are grown.
constexpr double coldest_year_C = -12, warmest_year_C = 33;

/// Twelve or twenty-four figures, January first.
std::vector<double> through_the_year(const Section& weather, std::string_view key, Kind kind) {
    const Node* node = weather.find(key);
    if (node == nullptr) return {};
    const Reader& reader = weather.reader();
    if (!node->is_list() || (node->items.size() != 12 && node->items.size() != 24)) {
        reader.mistake(
            node->at, "twelve-months",
            fmt::format("'{}' is a list of twelve months, or of 24 half-months, January first; {}", key,
                        node->is_list() ? fmt::format("this one has {}", node->items.size()) : "this is no list"));
        return {};
    }
    std::vector<double> values;
    for (const Node& item : node->items)
        if (const auto reading = quantity(reader, item, key, kind)) values.push_back(reading->si);
    return values.size() == node->items.size() ? values : std::vector<double>{};
}

template <std::size_t N>
std::array<double, N> array_of(const std::vector<double>& values) {
    std::array<double, N> result{};
    std::copy_n(values.begin(), N, result.begin());
    return result;
}

std::string in_both(double celsius) { return fmt::format("{:.3g} C ({:.3g} F)", celsius, celsius * 1.8 + 32); }

bool believed(const Reader& reader, Position at, double coldest, double mean, double warmest) {
    if (coldest > coldest_C && warmest < warmest_C && mean > coldest_year_C && mean < warmest_year_C) return true;
    const bool month = !(coldest > coldest_C && warmest < warmest_C);
    const double odd = month ? (coldest > coldest_C ? warmest : coldest) : mean;
    std::string text =
        fmt::format("{} as the mean of a {} is not to be believed", in_both(odd), month ? "month" : "year");
    if (odd > 0) text += fmt::format("; {0:.3g} F would be {1:.3g} C", odd, (odd - 32) / 1.8);
    reader.mistake(at, "temperature-range", text + ". Look at the unit");
    return false;
}

void read_wave(const Section& weather, const Node& node, loss::Field& field) {
    const Reader& reader = weather.reader();
    const Section wave(reader, "temperature", &node);
    const auto mean = figure(wave, "mean", Kind::temperature),
               above = figure(wave, "warmest above mean", Kind::temperature);
    for (const std::string_view key : {"mean", "warmest above mean"})
        if (!wave.has(key))
            reader.mistake(node.at, "missing",
                           "A temperature without its months has 'mean' and 'warmest above mean': how far the warmest "
                           "days stand above the mean of the year, like 23 F");
    if (!mean || !above) return;
    // A difference has no zero of its own: 23 F are 12.8 C.
    const double amplitude =
        above->reading.written * (above->reading.unit != nullptr ? above->reading.unit->factor : 1);
    if (!(amplitude >= 0 && amplitude <= 40)) {
        reader.mistake(above->at, "temperature-range",
                       fmt::format("The warmest days stand {:.3g} C above the mean of the year; that lies within 0 to "
                                   "40 C (72 F)",
                                   amplitude));
        return;
    }
    const double mean_C = mean->stated.value;
    if (!believed(reader, mean->at, mean_C - amplitude, mean_C, mean_C + amplitude)) return;
    field.weather.mean_temperature_C = mean_C;
    field.weather.temperature_amplitude_C = amplitude;
    field.weather.temperature_origin = weather.origin(node, "temperature");
}

void read_temperature(const Section& weather, loss::Field& field) {
    const Node* node = weather.find("temperature");
    if (node == nullptr) return;
    if (node->is_mapping()) return read_wave(weather, *node, field);
    const std::vector<double> means = through_the_year(weather, "temperature", Kind::temperature);
    if (means.empty()) return;
    const auto [coldest, warmest] = std::minmax_element(means.begin(), means.end());
    const double mean = std::accumulate(means.begin(), means.end(), 0.0) / static_cast<double>(means.size());
    if (!believed(weather.reader(), node->at, *coldest, mean, *warmest)) return;
    if (means.size() == 12)
        field.weather.month_temperature_C = array_of<12>(means);
    else
        field.weather.half_month_temperature_C = array_of<24>(means);
    field.weather.temperature_origin = weather.origin(*node, "temperature");
}

void read_rain_of_months(const Section& weather, loss::Field& field) {
    const std::vector<double> sums = through_the_year(weather, "rain", Kind::rain_depth);
    if (sums.empty()) return;
    const Node* node = weather.find("rain");
    const double most = 36000.0 / static_cast<double>(sums.size());
    for (std::size_t i = 0; i < sums.size(); ++i)
        if (sums[i] < 0 || sums[i] >= most) {
            weather.reader().mistake(
                node->items[i].at, "range",
                fmt::format("A rain of {:g} mm can't be right here; it lies between 0 and {:g} mm", sums[i], most));
            return;
        }
    const double year = std::accumulate(sums.begin(), sums.end(), 0.0);
    if (!(year > 0)) {
        weather.reader().mistake(node->at, "range", "The year holds no rain");
        return;
    }
    if (year < 150)
        weather.reader().caution(node->at, "rain-low",
                                 fmt::format("The year's rain of {:.3g} mm ({:.3g} in) is desert; residue hardly rots "
                                             "there. Look at the unit",
                                             year, year / 25.4));
    if (sums.size() == 12)
        field.weather.month_rain_mm = array_of<12>(sums);
    else
        field.weather.half_month_rain_mm = array_of<24>(sums);
    field.weather.rain_origin = weather.origin(*node, "rain");
}

void read_erosivity_calendar(const Section& weather, loss::Field& field) {
    const std::vector<double> shares = through_the_year(weather, "erosivity calendar", Kind::share);
    if (shares.empty()) return;
    const Node* node = weather.find("erosivity calendar");
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (!(shares[i] >= 0 && shares[i] <= 1)) {
            weather.reader().mistake(
                node->items[i].at, "range",
                fmt::format("A share of the year's erosivity of {:g} % lies outside 0 to 100 %", 100 * shares[i]));
            return;
        }
    const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
    if (std::abs(sum - 1) > 0.005) {
        weather.reader().mistake(node->at, "erosivity-calendar-sum",
                                 fmt::format("The shares of the erosivity calendar come to {:.4g} %; a year has 100 %. "
                                             "Printed tables often give the sum since 1 January: take each "
                                             "from the next",
                                             100 * sum));
        return;
    }
    field.weather.erosivity_share =
        shares.size() == 12 ? rotation::half_months_of_sums(array_of<12>(shares)) : array_of<24>(shares);
    field.weather.erosivity_origin = weather.origin(*node, "erosivity calendar");
}

}  // namespace

void read_weather(const Section& weather, loss::Field& field) {
    read_temperature(weather, field);
    read_rain_of_months(weather, field);
    read_erosivity_calendar(weather, field);
}

void judge_weather(const Reader& reader, const Node* node, Position rotation, loss::Field& field) {
    const bool changes = std::any_of(field.changes.begin(), field.changes.end(),
                                     [](const loss::Change& change) { return change.rotation.has_value(); });
    if (!field.rotation && !changes) return;
    rotation::Weather& weather = field.weather;
    if (!weather.month_rain_mm && !weather.half_month_rain_mm && field.rain.monthly_rain_mm) {
        weather.month_rain_mm = field.rain.monthly_rain_mm;
        weather.rain_origin = field.rain.monthly_origin;
    }
    if (!weather.erosivity_share && field.rain.gauge) {
        const auto& shares = field.rain.gauge->half_month_share;
        if (std::abs(std::accumulate(shares.begin(), shares.end(), 0.0) - 1) <= 0.005) {
            weather.erosivity_share = shares;
            weather.erosivity_origin = field.rain.gauge->record;
        }
    }
    const Position at = node != nullptr ? node->at : rotation;
    // What was written and can't be used has been told.
    if (!weather.month_temperature_C && !weather.half_month_temperature_C && !weather.mean_temperature_C &&
        entry_of(node, "temperature") == nullptr)
        reader.mistake(at, "weather-missing",
                       "A rotation needs the temperature of its place, since crops grow and residue rots by it: "
                       "'weather: {temperature: [...]}' with the means of twelve months, or {mean: 50 F, warmest above "
                       "mean: 23 F}");
    if (!weather.month_rain_mm && !weather.half_month_rain_mm && entry_of(node, "rain") == nullptr)
        reader.mistake(at, "weather-missing",
                       "A rotation needs the rain of its place by months, since residue rots by it: 'weather: {rain: "
                       "[...]}' with the sums of twelve months");
    if (!reader.document.mistakes().empty()) return;
    rotation::Weather worked = weather;
    worked.erosivity = factors::erosivity(field.rain).central;
    try {
        for (source::Remark remark : rotation::climate_of(worked).remarks) {
            remark.place = reader.document.where(at);
            reader.remarks.push_back(std::move(remark));
        }
    } catch (const std::invalid_argument& error) {
        reader.mistake(at, "weather-missing", error.what());
    }
}

}  // namespace soilhold::input
