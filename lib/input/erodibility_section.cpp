#include "input/erodibility_section.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

#include "input/figure.h"
#include "units/printing.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using factors::ErodibilityMethod;
using units::Kind;

/// Below this volume a survey's Kw is its Kf (National Soil Survey Handbook 618.59, read).
constexpr double least_rock_pct = 15.0;

bool is_sand(const std::string& texture) { return texture.find("sand") != std::string::npos; }

void judge_erodibility(const Reader& reader, const Figure& K, const std::string& texture) {
    const double us = K.stated.value / units::erodibility_si_per_us;
    const double written = K.reading.written;
    const bool in_us = K.reading.unit != nullptr && K.reading.unit->system == units::System::us;
    if (!(us > 0)) {
        reader.mistake(K.at, "range", fmt::format("K is {:g}; every soil that washes has a K above 0", written));
    } else if (us > 0.75) {
        reader.mistake(
            K.at, "erodibility-high",
            in_us ? fmt::format("K of {0:g} US is above all soils (0.02 to 0.69 US)", written)
                  : fmt::format("K of {0:g} SI looks like a US figure: {0:g} US is {1} SI, while {0:g} SI would "
                                "be {2} US, above all soils (0.02 to 0.69 US)",
                                written, units::figures(written * units::erodibility_si_per_us, 3),
                                units::figures(us, 3)));
    } else if (us < 0.10 && in_us && !is_sand(texture)) {
        reader.caution(K.at, "erodibility-low",
                       fmt::format("K of {0:g} US looks metric: {0:g} SI is {1} US, and the loss is then 7.6 times as "
                                   "large. Below 0.1 US lie sands and very organic soils",
                                   written, units::figures(written / units::erodibility_si_per_us, 2)));
    }
}

void judge_survey(const Section& section, const Figure& K, loss::Field& field) {
    const Reader& reader = section.reader();
    judge_erodibility(reader, K, field.texture_class);
    field.soil.erodibility = K.stated;
    const std::string from = lower_case(K.stated.origin.from);
    if (from.find("no-till") != std::string::npos || from.find("adjusted") != std::string::npos)
        reader.caution(K.at, "erodibility-adjusted",
                       "This K seems adjusted for the farming. C credits the farming already: use the survey's K, or "
                       "the same credit counts twice");
}

/// A figure without unit, not below 0.
std::optional<double> plain_number(const Section& section, std::string_view key) {
    const auto found = bare_figure(section, key);
    if (!found) return std::nullopt;
    if (found->stated.value >= 0) return found->stated.value;
    section.reader().mistake(found->at, "range",
                             fmt::format("'{}' is {:g}; it is 0 or above", key, found->stated.value));
    return std::nullopt;
}

/// Whose K holds the stones, and whether they are to lower this one.
void read_rock(const Section& section, bool survey, loss::Field& field) {
    const Reader& reader = section.reader();
    const auto includes_rock = section.yes_no("rock in erodibility");
    field.erodibility_includes_rock = includes_rock.value_or(false);
    constexpr auto places = std::to_array<std::string_view>({"erodibility", "cover"});
    const auto counted_in = section.word("rock counted in", places);
    field.soil.count_rock = counted_in == "erodibility";
    const auto rock = percent(section, "rock fragments");
    field.rock_fragments_pct = rock;
    field.soil.rock_fragments_pct = rock;
    if (field.soil.count_rock && !rock && !section.has("rock fragments"))
        reader.mistake(section.find("rock counted in")->at, "missing",
                       "To count the rock in K its share is needed: give 'rock fragments' in % by volume");
    if (field.soil.count_rock && survey && field.erodibility_includes_rock) {
        reader.mistake(section.find("rock counted in")->at, "rock-twice",
                       "'rock in erodibility: yes' says that this K (Kw) holds the stones already; counted again they "
                       "would shelter the soil twice. Leave one of the two out");
        field.soil.count_rock = false;
    }
    // From here on it says of the K that is used whether the stones are in it.
    field.erodibility_includes_rock =
        (survey && field.erodibility_includes_rock) || (field.soil.count_rock && rock.value_or(0) >= least_rock_pct);
    if (!rock || *rock < least_rock_pct || counted_in) return;
    if (survey && !includes_rock)
        reader.caution(section.find("rock fragments")->at, "rock-in-erodibility",
                       fmt::format("With {:g} % rock fragments, K of the whole soil (Kw) can be half of that of the "
                                   "fine earth (Kf). Say which one it is: 'rock in erodibility: yes' for Kw, 'no' "
                                   "for Kf",
                                   *rock));
    else if (!survey || !*includes_rock)
        reader.note(section.find("rock fragments")->at, "rock-uncounted",
                    fmt::format("K is that of the fine earth, so the {:g} % rock fragments count nowhere yet. Write "
                                "'rock counted in: erodibility' to lower K by them, or 'cover' when the surface cover "
                                "of C holds them",
                                *rock));
}

/// "nomograph, particle size": the methods that would give a K of this soil.
std::string fitting_methods(const factors::SoilDescription& soil) {
    std::string list;
    for (const std::string_view words : factors::erodibility_method_words()) {
        factors::SoilDescription asked = soil;
        asked.method = factors::erodibility_method_of(words);
        try {
            factors::erodibility(asked);
            list += (list.empty() ? "" : ", ") + std::string(words);
        } catch (const std::invalid_argument&) {
            // not this one
        }
    }
    return list;
}

void judge_method(const Section& section, const Node& method, const factors::SoilDescription& soil) {
    const Reader& reader = section.reader();
    const std::string_view words = factors::words_for(soil.method);
    const auto others = [&] {
        const std::string fitting = fitting_methods(soil);
        return fitting.empty() ? std::string("Give the survey's K as 'erodibility'")
                               : "What this file holds allows: " + fitting;
    };
    if (const std::string lacking = factors::lacking_for(soil.method, soil); !lacking.empty()) {
        reader.mistake(method.at, "method-needs", fmt::format("K by {} needs {} too. {}", words, lacking, others()));
        return;
    }
    try {
        factors::erodibility(soil);
    } catch (const std::invalid_argument& unfit) {
        std::string why = unfit.what();
        while (why.ends_with('.')) why.pop_back();
        reader.mistake(method.at, "method-range",
                       fmt::format("K by {} can't be had for this soil. {}. {}", words, why, others()));
    }
}

/// No method is asked for and no K given: whether anything can be worked out.
void judge_fitting(const Section& section, const factors::SoilDescription& soil) {
    try {
        factors::erodibility(soil);
    } catch (const std::invalid_argument&) {
        const std::string lacking = factors::lacking_for(ErodibilityMethod::nomograph, soil);
        section.reader().mistake(
            section.at(), "missing",
            fmt::format("K is missing: give 'erodibility' from the soil survey, or what it is worked out from. The "
                        "nomograph equation still needs {}; with sand, silt and clay in % alone K can be had more "
                        "roughly",
                        lacking.empty() ? "a soil within its range" : lacking));
    }
}

}  // namespace

void read_erodibility(const Section& section, std::size_t mistakes_before, loss::Field& field) {
    const Reader& reader = section.reader();
    factors::SoilDescription& soil = field.soil;
    const auto words = factors::erodibility_method_words();
    if (const auto method = section.word("method", words)) soil.method = factors::erodibility_method_of(*method);
    soil.unstable_below_250um_pct = percent(section, "unstable aggregates");
    soil.base_saturation_pct = percent(section, "base saturation");
    soil.aggregate_index = plain_number(section, "aggregate index");
    soil.montmorillonite_pct = percent(section, "montmorillonite");
    soil.dispersion_ratio = plain_number(section, "dispersion ratio");
    const auto K = figure(section, "erodibility", Kind::erodibility, SpreadUse::used);
    if (K) judge_survey(section, *K, field);
    const bool survey = section.has("erodibility") &&
                        (soil.method == ErodibilityMethod::fitting || soil.method == ErodibilityMethod::survey);
    read_rock(section, survey, field);
    if (survey || (section.has("method") && soil.method == ErodibilityMethod::fitting)) return;
    if (soil.texture_origin.from.empty())
        soil.texture_origin = {section.text("from").value_or(reader.default_from), "", source::Standing::users_figure};
    // What was mistaken would be lacking here: one mistake is told once.
    if (reader.document.mistakes().size() > mistakes_before) return;
    if (soil.method != ErodibilityMethod::fitting)
        judge_method(section, *section.find("method"), soil);
    else
        judge_fitting(section, soil);
}

}  // namespace soilhold::input
