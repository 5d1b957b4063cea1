#include "input/rain_section.h"

#include <fmt/format.h>

#include <numeric>

#include "input/figure.h"
#include "units/printing.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;

/// R of a county sheet lies between about 10 and 700 US; what lies outside is most often the other unit.
void judge_erosivity(const Reader& reader, const Figure& R) {
    const double us = R.stated.value / units::erosivity_si_per_us;
    const double written = R.reading.written;
    const bool in_us = R.reading.unit != nullptr && R.reading.unit->system == units::System::us;
    if (!(us > 0)) {
        reader.mistake(R.at, "range",
                       fmt::format("R is {:g}, and rain that erodes nothing needs no estimate; R is above 0", written));
    } else if (us > 700) {
        const std::string text =
            in_us ? fmt::format("R of {0:g} US looks metric: {0:g} SI is {1} US, while {0:g} US would be {2} SI",
                                written, units::figures(written / units::erosivity_si_per_us, 3),
                                units::figures(R.stated.value, 4))
                  : fmt::format("R is {} US, more than almost any farmland has", units::figures(us, 3));
        if (R.confirmed)
            reader.caution(R.at, "erosivity-high", text + ". It is confirmed in the file and used as written");
        else
            reader.mistake(R.at, "erosivity-high",
                           text + ". Correct the unit, or write {value: ..., confirmed: yes} if it is right");
    } else if (in_us && us < 10) {
        reader.caution(R.at, "erosivity-low",
                       fmt::format("R of {0:g} US is very low. Was it read from a sheet in hundreds ({1:g} US) or in "
                                   "another unit? As written the loss is a hundredth of that",
                                   written, 100 * written));
    } else if (!in_us && us < 20) {
        reader.caution(R.at, "erosivity-low",
                       fmt::format("R of {0:g} SI is only {1} US. If {0:g} is the US figure, write {0:g} US ({2} SI): "
                                   "the loss is then 17 times as large",
                                   R.stated.value, units::figures(us, 3),
                                   units::figures(R.stated.value * units::erosivity_si_per_us, 3)));
    }
}

void judge_annual(const Reader& reader, const Figure& annual) {
    const double mm = annual.stated.value;
    if (!(mm > 0) || mm > 12000)
        reader.mistake(
            annual.at, "range",
            fmt::format("Yearly rain of {} ({}) can't be right; it lies between about 2 in (50 mm) and 470 in "
                        "(12000 mm)",
                        units::print(Kind::rain_depth, mm, units::System::metric),
                        units::print(Kind::rain_depth, mm, units::System::us)));
    else if (mm < 150)
        reader.caution(
            annual.at, "rain-low",
            fmt::format("Yearly rain of {0} ({1}) is desert. If inches were meant, {2:g} in is {3}",
                        units::print(Kind::rain_depth, mm, units::System::metric),
                        units::print(Kind::rain_depth, mm, units::System::us), annual.reading.written,
                        units::print(Kind::rain_depth, 25.4 * annual.reading.written, units::System::metric)));
}

void read_monthly(const Section& rain, loss::Field& field) {
    const Node* node = rain.find("monthly");
    if (node == nullptr) return;
    const Reader& reader = rain.reader();
    if (!node->is_list() || node->items.size() != 12) {
        reader.mistake(
            node->at, "twelve-months",
            fmt::format("'monthly' is a list of twelve rains, January first; {}",
                        node->is_list() ? fmt::format("this one has {}", node->items.size()) : "this is no list"));
        return;
    }
    std::array<double, 12> months{};
    for (std::size_t i = 0; i < 12; ++i) {
        const auto reading = quantity(reader, node->items[i], "monthly", Kind::rain_depth);
        if (!reading) continue;
        months[i] = reading->si;
        if (reading->si < 0 || reading->si > 3000)
            reader.mistake(
                node->items[i].at, "range",
                fmt::format("A month's rain of {:g} mm can't be right; it lies between 0 and 3000 mm", reading->si));
    }
    if (!(std::accumulate(months.begin(), months.end(), 0.0) > 0))
        reader.mistake(node->at, "range", "The twelve months hold no rain");
    field.rain.monthly_rain_mm = months;
    field.rain.monthly_origin = rain.origin(*node, "monthly");
}

}  // namespace

void read_rain(const Section& rain, FilesBeside& files, loss::Field& field) {
    const Reader& reader = rain.reader();
    auto erosivity = figure(rain, "erosivity", Kind::erosivity, SpreadUse::used);
    auto annual = figure(rain, "annual", Kind::rain_depth, SpreadUse::used);
    read_monthly(rain, field);
    const int ways =
        int(rain.has("erosivity")) + int(rain.has("annual")) + int(rain.has("monthly")) + int(rain.has("gauge"));
    if (ways == 0)
        reader.mistake(
            rain.at(), "missing",
            "The rain is missing: give 'erosivity' (R), 'annual' or 'monthly' rain, or the record of a 'gauge'");
    if (ways > 1)
        reader.mistake(rain.at(), "one-of",
                       "R can be had from 'erosivity', 'annual', 'monthly' or a 'gauge'; keep the one you trust most, "
                       "since they give different figures");
    else
        read_gauge(rain, files, field);
    if (const Node* spread = rain.find("spread")) {
        if (erosivity && !erosivity->stated.range)
            add_spread(reader, *spread, "erosivity", Kind::erosivity, *erosivity);
        else if (annual && !annual->stated.range)
            add_spread(reader, *spread, "annual", Kind::rain_depth, *annual);
        else if (rain.has("gauge"))
            reader.mistake(spread->at, "spread-range",
                           "The spread of R from a gauge follows from its years; take 'spread' out");
        else if (rain.has("monthly"))
            reader.mistake(spread->at, "spread-range", "A spread of the rain needs 'erosivity' or 'annual' beside it");
    }
    if (erosivity) {
        judge_erosivity(reader, *erosivity);
        field.rain.erosivity = erosivity->stated;
    }
    if (annual) {
        judge_annual(reader, *annual);
        field.rain.annual_rain_mm = annual->stated;
    }
}

}  // namespace soilhold::input
