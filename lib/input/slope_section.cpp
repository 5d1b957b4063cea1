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
constexpr std::size_t most_segments = 20;

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

namespace {

void read_even_slope(const Section& slope, loss::Field& field) {
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
}

/// A slope that bends: its parts from the top down, each with a length and a steepness.
void read_segments(const Section& slope, const Node& list, loss::Field& field) {
    const Reader& reader = slope.reader();
    if (!list.is_list() || list.items.size() < 2 || list.items.size() > most_segments) {
        reader.mistake(list.at, "not-a-list",
                       fmt::format("'segments' is a list of 2 to {} parts of the slope from the top down, each like "
                                   "{{length: 100 ft, steepness: 3 %}}",
                                   most_segments));
        return;
    }
    factors::SlopeShape parts;  // metres and gradients at first
    double length_m = 0, fall_m = 0;
    for (const Node& item : list.items) {
        const Section segment(reader, "segment", &item);
        if (!item.is_mapping()) return;
        const auto length = read_length(segment, "length");
        const auto steepness = figure(segment, "steepness", Kind::steepness);
        if (!segment.has("length") || !segment.has("steepness"))
            reader.mistake(item.at, "missing", "Each part of a slope has a 'length' and a 'steepness'");
        if (!length || !steepness) continue;
        judge_steepness(reader, *steepness);
        if (length->range)
            reader.note(segment.find("length")->at, "spread-unused",
                        "A spread of one part is not used: the slope's length is in doubt as a whole");
        if (steepness->stated.value == 0)
            reader.mistake(steepness->at, "segment-level",
                           "Soil settles on a level part, and the equation has no settling: end the slope above it");
        parts.push_back({length->value, steepness->stated.value});
        length_m += length->value;
        fall_m += length->value * steepness->stated.value;
    }
    if (parts.size() != list.items.size() || !(fall_m > 0)) return;
    if (length_m < factors::short_slope_m)
        reader.mistake(list.at, "segments-short",
                       fmt::format("The parts are {:.3g} m long in all; a slope under 15 ft (4.6 m) is taken as one: "
                                   "give its 'length' and mean 'steepness'",
                                   length_m));
    if (length_m > longest_unconfirmed_m)
        reader.mistake(list.at, "length-over-limit",
                       fmt::format("The parts are {:.0f} ft ({:.0f} m) long in all, longer than overland flow keeps "
                                   "together: about 400 ft, at most 1000 ft. Where does a channel begin?",
                                   length_m / units::metre_per_foot, length_m));
    const double gradient = fall_m / length_m;
    for (factors::SlopePart& part : parts) part = {part.length_share / length_m, part.relative_gradient / gradient};
    const source::Origin origin = slope.origin(list, "segments");
    field.slope.shape = std::move(parts);
    field.slope.length_m = {length_m, {}, origin};
    field.slope.gradient = {gradient, {}, origin};
}

}  // namespace

void read_slope(const Section& slope, loss::Field& field) {
    const Reader& reader = slope.reader();
    const Node* segments = slope.find("segments");
    // What the field itself says comes before what its place says.
    const bool even = slope.own("length") || slope.own("steepness");
    const bool bent = segments != nullptr && (slope.own("segments") || !even);
    if (bent && (slope.own("segments") ? even : slope.has("length") || slope.has("steepness")))
        reader.mistake(segments->at, "one-of",
                       "'segments' gives the slope's length and steepness part by part; leave 'length' and "
                       "'steepness' out, or give these two alone");
    if (bent)
        read_segments(slope, *segments, field);
    else
        read_even_slope(slope, field);
    static constexpr auto methods = std::to_array<std::string_view>({"handbook 703", "handbook 537"});
    if (const auto method = slope.word("method", methods))
        field.slope.method =
            *method == methods[0] ? factors::SlopeMethod::handbook_703 : factors::SlopeMethod::handbook_537;
    static constexpr auto rills = std::to_array<std::string_view>({"low", "moderate", "high", "thawing"});
    if (const auto word = slope.word("rills", rills)) {
        field.slope.rill_ratio = *word == "low"       ? factors::RillRatio::low
                                 : *word == "high"    ? factors::RillRatio::high
                                 : *word == "thawing" ? factors::RillRatio::thawing
                                                      : factors::RillRatio::moderate;
        if (field.slope.method == factors::SlopeMethod::handbook_537)
            reader.note(slope.find("rills")->at, "rills-unused",
                        "Handbook 537 has no rill ratio; 'rills' changes nothing");
    }
}

}  // namespace soilhold::input
