#include "input/slope_section.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "input/figure.h"
#include "units/printing.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;
using units::System;

constexpr double longest_unconfirmed_m = 1000 * units::metre_per_foot;

/// A length in one unit whose odd number is a round one in the other: 60.96 ft (200 ft are 60.96 m), 22.1 ft.
void judge_conversion(const Reader& reader, const Figure& length) {
    const double written = length.reading.written;
    if (length.reading.unit == nullptr || written == std::floor(written)) return;
    const bool feet = length.reading.unit->symbol != "m" && length.reading.unit->system == System::us;
    const double other = feet ? written / units::metre_per_foot : written * units::metre_per_foot;
    const double round = std::round(other / 10) * 10;
    const bool unit_plot = std::abs(written - (feet ? 22.13 : 72.6)) < 0.05;
    if (!unit_plot && (round <= 0 || std::abs(other - round) > 0.001 * round)) return;
    reader.caution(length.at, "length-looks-converted",
                   feet ? fmt::format("A slope length of {0:g} ft looks like metres: {0:g} m are {1:.3g} ft, which is "
                                      "longer and loses more. If feet are right, nothing need be done",
                                      written, other)
                        : fmt::format("A slope length of {0:g} m looks like feet: {0:g} ft are {1:.3g} m, which is "
                                      "shorter and loses less. If metres are right, nothing need be done",
                                      written, other));
}

void judge_steepness(const Reader& reader, const Figure& steepness) {
    const double gradient = steepness.stated.value;
    const double pct = 100 * gradient;
    if (steepness.reading.unit == nullptr && gradient > 0)
        reader.note(steepness.at, "steepness-degrees",
                    fmt::format("{0:g} degrees of slope are {1:.3g} %. If {0:g} percent was meant, write {0:g} %: the "
                                "slope is then about half as steep",
                                steepness.reading.written, pct));
    if (gradient < 0)
        reader.mistake(steepness.at, "range", fmt::format("A steepness of {:g} % runs uphill; it lies above 0", pct));
    else if (gradient > 1)
        reader.mistake(steepness.at, "range",
                       fmt::format("A steepness of {0:.4g} % is steeper than 45 degrees, which nobody farms. Was a "
                                   "decimal point lost ({1:.3g} %), or is it a ratio?",
                                   pct, pct / 100));
    else if (pct < 0.3)
        reader.caution(steepness.at, "steepness-tiny",
                       fmt::format("A steepness of {0:g} % is next to level. If it is rise over run, write {1:.3g} %",
                                   pct, 100 * pct));
}

}  // namespace

std::optional<spread::Stated> read_length(const Section& section, std::string_view key) {
    const Reader& reader = section.reader();
    const auto length = figure(section, key, Kind::length, SpreadUse::used);
    if (!length) return std::nullopt;
    const double m = length->stated.value;
    const std::string both = fmt::format("{} ({})", units::print(Kind::length, m, System::us),
                                         units::print(Kind::length, m, System::metric));
    if (!(m > 0)) {
        reader.mistake(length->at, "range", "A slope length lies above 0");
        return std::nullopt;
    }
    judge_conversion(reader, *length);
    if (m > longest_unconfirmed_m + 1e-9) {
        if (length->confirmed && m <= 1000)
            reader.note(length->at, "length-over-limit",
                        fmt::format("A slope length of {} is confirmed in the file and used as written", both));
        else
            reader.mistake(
                length->at, "length-over-limit",
                fmt::format("A slope length of {} is longer than overland flow keeps together: about 400 ft (122 "
                            "m), at most 1000 ft (305 m). Walk it: where does soil settle, or a channel begin? "
                            "If you walked it and it is right, write {{value: ..., confirmed: yes}}",
                            both));
    }
    return length->stated;
}

void read_slope(const Section& slope, loss::Field& field) {
    const Reader& reader = slope.reader();
    if (const auto length = read_length(slope, "length"))
        field.slope.length_m = *length;
    else if (!slope.has("length"))
        reader.mistake(slope.at(), "missing",
                       "The slope length is missing: 'length', from where flow starts to where "
                       "soil settles or a channel begins");
    if (const auto steepness = figure(slope, "steepness", Kind::steepness, SpreadUse::used)) {
        judge_steepness(reader, *steepness);
        field.slope.gradient = steepness->stated;
    } else if (!slope.has("steepness")) {
        reader.mistake(slope.at(), "missing", "The steepness of the slope is missing: 'steepness', in % or degrees");
    }
    static constexpr auto methods = std::to_array<std::string_view>({"handbook 703", "handbook 537"});
    if (const auto method = slope.word("method", methods))
        field.slope.method =
            *method == methods[0] ? factors::SlopeMethod::handbook_703 : factors::SlopeMethod::handbook_537;
    static constexpr auto rills = std::to_array<std::string_view>({"low", "moderate", "high"});
    if (const auto word = slope.word("rills", rills)) {
        field.slope.rill_ratio = *word == "low"    ? factors::RillRatio::low
                                 : *word == "high" ? factors::RillRatio::high
                                                   : factors::RillRatio::moderate;
        if (field.slope.method == factors::SlopeMethod::handbook_537)
            reader.note(slope.find("rills")->at, "rills-unused",
                        "Handbook 537 has no rill ratio; 'rills' changes nothing");
    }
}

}  // namespace soilhold::input
