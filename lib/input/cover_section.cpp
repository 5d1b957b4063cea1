#include "input/cover_section.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "input/cover_tables_section.h"
#include "input/figure.h"

namespace soilhold::input {

namespace {

using units::Kind;

std::optional<double> fraction(const Section& parts, std::string_view key) {
    const auto value = percent(parts, key);
    return value ? std::optional(*value / 100) : std::nullopt;
}

factors::CoverParts read_parts(const Section& parts, source::Origin origin) {
    const Reader& reader = parts.reader();
    factors::CoverParts result;
    result.origin = std::move(origin);
    result.surface_cover_fraction = fraction(parts, "surface cover");
    result.canopy_fraction = fraction(parts, "canopy");
    if (const auto height = figure(parts, "fall height", Kind::length)) {
        result.fall_height_m = height->stated.value;
        if (height->stated.value < 0 || height->stated.value > 30)
            reader.mistake(
                height->at, "range",
                fmt::format("Drops fall {:g} m from this canopy; it lies between 0 and 30 m", height->stated.value));
    }
    if (result.canopy_fraction && !parts.has("fall height"))
        reader.mistake(parts.find("canopy")->at, "missing",
                       "A canopy needs 'fall height' beside it: how far drops fall from it, like 2 ft");
    if (const auto roughness = figure(parts, "roughness", Kind::small_length)) {
        result.roughness_mm = roughness->stated.value;
        if (!(roughness->stated.value > 0) || roughness->stated.value > 150)
            reader.mistake(roughness->at, "range",
                           fmt::format("A roughness of {:g} mm can't be right; it lies above 0 and up to 150 mm (6 in)",
                                       roughness->stated.value));
    }
    if (const auto use = bare_figure(parts, "prior land use")) {
        if (use->stated.value > 0 && use->stated.value <= 1)
            result.prior_land_use = use->stated.value;
        else
            reader.mistake(use->at, "range",
                           fmt::format("'prior land use' is {:g}, and lies above 0 and up to 1", use->stated.value));
    }
    if (const auto years = figure(parts, "undisturbed", Kind::duration)) {
        result.years_undisturbed = years->stated.value / (365.25 * 86400.0);
        if (*result.years_undisturbed < 0)
            reader.mistake(years->at, "range", "'undisturbed' is a time that has passed, 0 years or more");
    }
    if (result.prior_land_use && result.years_undisturbed)
        reader.mistake(parts.find("undisturbed")->at, "double-count",
                       "'undisturbed' is part of prior land use, and both would count it twice; keep one");
    return result;
}

std::optional<spread::Stated> read_factor(const Section& cover) {
    const auto C = bare_figure(cover, "factor", SpreadUse::used);
    if (!C) return std::nullopt;
    const double value = C->stated.value;
    if (!(value > 0) || value > 1) {
        std::string text = value > 1
                               ? fmt::format("C is {:g}; clean-tilled fallow has 1, and nothing lies above it", value)
                               : fmt::format("C is {:g}; even dense sod loses some soil, so C lies above 0", value);
        if (value > 1 && value <= 100) text += fmt::format(". If {0:g} % was meant, write {1:g}", value, value / 100);
        cover.reader().mistake(C->at, "cover-range", text);
        return std::nullopt;
    }
    return C->stated;
}

/// Each of the ways is a whole C; two of them would be two answers to one question.
bool one_way(const Section& cover) {
    const Reader& reader = cover.reader();
    std::string_view first;
    for (const std::string_view way : ways_to_cover) {
        if (!cover.has(way)) continue;
        if (first.empty()) {
            first = way;
            continue;
        }
        const Node* node = cover.find(way);
        reader.mistake(node != nullptr ? node->at : cover.at(), "one-of",
                       first == "factor" && way == "parts"
                           ? "C is given as 'factor' and again by its 'parts'; keep one of them"
                           : fmt::format("C is given by '{}' and again by '{}'; keep one of them", first, way));
        return false;
    }
    if (first.empty())
        reader.mistake(cover.at(), "missing",
                       "The cover is missing: 'factor' (C), 'parts' to work it out from, a 'rotation', or a table: "
                       "'pasture', 'woodland', 'mulch', 'site' or 'stages'");
    return !first.empty();
}

/// Tables of ground undisturbed for years credit that, whatever is said.
void judge_credits(const Section& cover, const factors::CoverOfTable& table,
                   std::optional<structure::Credited>* credited) {
    const bool staged = std::holds_alternative<factors::StagedCover>(table);
    if (staged || !factors::holds_prior_land_use(table)) return;
    const Node* said = cover.find("credits");
    if (said != nullptr && said->is_scalar() && lower_case(said->text) != "no-till")
        cover.reader().caution(
            said->at, "pasture-broken",
            fmt::format("This table holds for ground undisturbed for years, and 'credits: {}' says it was broken. "
                        "Freshly broken ground under the same cover may lose up to 2.2 times as much (bare ground 1 in "
                        "place of 0.45)",
                        readable(said->text, 40)));
    else if (said == nullptr && credited != nullptr)
        *credited = structure::Credited::no_till;
}

}  // namespace

std::optional<factors::CoverDescription> read_cover(const Section& cover,
                                                    std::optional<structure::Credited>* credited) {
    const Reader& reader = cover.reader();
    factors::CoverDescription result;
    result.factor = read_factor(cover);
    if (const Node* parts = cover.find("parts")) {
        const Section section(reader, "parts", parts);
        source::Origin origin = cover.origin(*parts, "parts");
        result.parts = read_parts(section, std::move(origin));
    }
    result.table = read_cover_table(cover);
    const bool once = one_way(cover);

    static constexpr auto credits = std::to_array<std::string_view>({"tilled", "reduced", "no-till"});
    if (const auto word = cover.word("credits", credits); word && credited != nullptr)
        *credited = *word == "tilled"    ? structure::Credited::tilled
                    : *word == "reduced" ? structure::Credited::reduced
                                         : structure::Credited::no_till;
    if (result.table) judge_credits(cover, *result.table, credited);

    static constexpr auto periods = std::to_array<std::string_view>({"rotation", "one year", "one season"});
    if (const auto period = cover.word("period", periods)) {
        const Position at = cover.find("period")->at;
        if (*period == "one year")
            reader.caution(
                at, "cover-one-year",
                "This C is of one crop year. A rotation's C is the mean of its years, each crop stage weighted "
                "by its share of the erosive rain; one year alone can be off by a factor of two either way");
        if (*period == "one season")
            reader.caution(at, "cover-one-season",
                           "This C is of one season. Under a full canopy it comes out far too low, before planting too "
                           "high; the equation wants the year, weighted by the erosive rain");
    }
    if (!once || (!result.factor && !result.parts && !result.table)) return std::nullopt;
    return result;
}

}  // namespace soilhold::input
