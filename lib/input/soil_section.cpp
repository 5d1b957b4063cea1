#include "input/soil_section.h"

#include <fmt/format.h>

#include <cmath>

#include "factors/nomograph_codes.h"
#include "factors/tolerance.h"
#include "input/erodibility_section.h"
#include "input/figure.h"
#include "input/known_keys.h"
#include "input/texture_classes.h"
#include "units/printing.h"
#include "units/unit.h"

namespace soilhold::input {

namespace {

using units::Kind;

/// Organic matter is 1.724 times organic carbon by custom (carbon 58 %).
constexpr double matter_per_carbon = 1.724;

void read_fractions(const Reader& reader, const Node& node, loss::Field& field, const source::Origin& origin) {
    const Section texture(reader, "texture", &node);
    factors::SoilDescription& soil = field.soil;
    soil.sand_pct = percent(texture, "sand");
    soil.silt_pct = percent(texture, "silt");
    soil.very_fine_sand_pct = percent(texture, "very fine sand");
    soil.clay_pct = percent(texture, "clay");
    const Entry* from = entry_of(&node, "from");
    soil.texture_origin = from != nullptr && texture.find("from") != nullptr
                              ? source::Origin{texture.text("from").value_or(origin.from), "", origin.standing}
                              : origin;
}

/// Sand, silt and clay make the whole, and very fine sand is part of the sand. Lab sheets round, so 99 to 101 will do.
void judge_sum(const Reader& reader, const Section& section, const factors::SoilDescription& soil) {
    const Node* node = section.find("texture");
    if (node == nullptr) return;
    const double fine = soil.very_fine_sand_pct.value_or(0);
    if (soil.sand_pct && soil.silt_pct && soil.clay_pct) {
        const double sum = *soil.sand_pct + *soil.silt_pct + *soil.clay_pct;
        if (std::abs(sum - 100) > 1.0001) {
            std::string text = fmt::format("Sand {:g} %, silt {:g} % and clay {:g} % add to {:g} %, not to 100 %",
                                           *soil.sand_pct, *soil.silt_pct, *soil.clay_pct, sum);
            if (std::abs(sum + fine - 100) <= 1)
                text += fmt::format(". Very fine sand is part of the sand: write sand {:g} %", *soil.sand_pct + fine);
            reader.mistake(node->at, "texture-sum", text);
            return;
        }
    }
    if (soil.sand_pct && fine > *soil.sand_pct) {
        const Entry* entry = entry_of(node, "very fine sand");
        reader.mistake(entry != nullptr ? entry->value.at : node->at, "texture-sum",
                       fmt::format("Very fine sand {:g} % is part of the sand, which is {:g} %", fine, *soil.sand_pct));
        return;
    }
    const double others = soil.silt_pct.value_or(0) + fine + soil.clay_pct.value_or(0);
    if (others > 100)
        reader.mistake(
            node->at, "texture-sum",
            fmt::format("Silt, very fine sand and clay add to {:g} %, which is more than the whole", others));
}

void read_texture(const Section& section, loss::Field& field) {
    const Reader& reader = section.reader();
    const Node* node = section.find("texture");
    if (node != nullptr && node->is_mapping()) {
        read_fractions(reader, *node, field, section.origin(*node, "texture"));
    } else if (const auto name = section.text("texture")) {
        const std::string plain = lower_case(*name);
        bool known = false;
        for (const std::string_view word : texture_classes()) known = known || word == plain;
        if (!known) {
            const std::string near = nearest_word(texture_classes(), plain);
            reader.mistake(node->at, "unknown-word",
                           fmt::format("'{}' is no texture class known here{}; or give sand, very fine sand, silt and "
                                       "clay in %",
                                       *name, near.empty() ? "" : fmt::format(" (did you mean '{}'?)", near)));
        }
        field.texture_class = plain;
        field.soil.texture = plain;
    }
    if (const auto clay = percent(section, "clay")) {
        if (field.soil.clay_pct && std::abs(*field.soil.clay_pct - *clay) > 0.05)
            reader.mistake(section.find("clay")->at, "twice",
                           fmt::format("Clay is {:g} % here and {:g} % in the texture", *clay, *field.soil.clay_pct));
        field.soil.clay_pct = clay;
    }
    judge_sum(reader, section, field.soil);
}

void read_organic(const Section& section, loss::Field& field) {
    const Reader& reader = section.reader();
    const auto matter = percent(section, "organic matter");
    const auto carbon = percent(section, "organic carbon");
    if (matter && carbon) {
        // The field's own figure stands before that of the place.
        if (section.own("organic matter") == section.own("organic carbon"))
            reader.mistake(section.find("organic carbon")->at, "one-of",
                           "Give 'organic matter' or 'organic carbon', not both: the matter is 1.724 times the carbon");
        else if (section.own("organic matter")) {
            field.soil.organic_matter_pct = matter;
            return;
        }
    }
    if (carbon) {
        field.soil.organic_matter_pct = matter_per_carbon * *carbon;
        field.soil.organic_carbon_pct = carbon;
        reader.note(
            section.find("organic carbon")->at, "organic-carbon",
            fmt::format("Organic carbon of {0:g} % is taken as organic matter of {1:.3g} % (x 1.724). If {0:g} % "
                        "is the organic matter itself, write 'organic matter'",
                        *carbon, matter_per_carbon * *carbon));
    } else if (matter) {
        field.soil.organic_matter_pct = matter;
    }
    if (field.soil.organic_matter_pct && *field.soil.organic_matter_pct > 20)
        reader.caution(
            section.find(carbon ? "organic carbon" : "organic matter")->at, "organic-soil",
            fmt::format("{:.3g} % of organic matter is a peat or muck; the equation was made on mineral soil",
                        *field.soil.organic_matter_pct));
}

std::string without_commas(std::string text) {
    std::erase(text, ',');
    return text;
}

/// A code, a word, or for permeability a conductivity.
std::optional<int> read_code(const Section& section, std::string_view key, int most,
                             std::span<const std::string_view> words, int (*code_of)(std::string_view),
                             bool conductivity) {
    const Reader& reader = section.reader();
    const Node* node = section.find(key);
    const auto text = node ? scalar_text(reader, *node, key) : std::nullopt;
    if (!text) return std::nullopt;
    const std::string plain = lower_case(*text);
    for (const std::string_view word : words)
        if (word == plain || word == without_commas(plain)) return code_of(plain);
    try {
        const double number = units::read_number(*text);
        if (number >= 1 && number <= most && number == std::floor(number)) return static_cast<int>(number);
        reader.mistake(node->at, "range",
                       fmt::format("'{}' is {:g}, and the codes of {} are 1 to {}{}", key, number, key, most,
                                   conductivity ? fmt::format("; as a conductivity it would need its unit: {}",
                                                              units::both_readings(Kind::conductivity, number))
                                                : ""));
        return std::nullopt;
    } catch (const units::ReadingError&) {
    }
    if (conductivity && !text->empty() && (*text)[0] >= '0' && (*text)[0] <= '9') {
        const auto reading = quantity(reader, *node, key, Kind::conductivity);
        if (!reading) return std::nullopt;
        return factors::permeability_code(reading->si);
    }
    const std::string near = nearest_word(words, *text);
    reader.mistake(node->at, "unknown-word",
                   fmt::format("'{}' is no {} known here{}; known are: {}, or a code 1 to {}", *text, key,
                               near.empty() ? "" : fmt::format(" (did you mean '{}'?)", near), joined(words), most));
    return std::nullopt;
}

/// T by what lies below and how deep, where the survey's own is not at hand.
void read_tolerance_by_depth(const Section& soil, const Node& node, loss::Field& field) {
    const Reader& reader = soil.reader();
    const Section section(reader, "tolerance by depth", &node);
    if (!node.is_mapping()) return;
    static constexpr auto layers =
        std::to_array<std::string_view>({"group 1", "group 2", "group 3", "lithic", "paralithic or densic"});
    const auto layer = section.word("layer", layers);
    const auto depth = figure(section, "depth", Kind::small_length);
    if (!section.has("layer") || !section.has("depth"))
        reader.mistake(node.at, "missing",
                       "T by depth goes by 'layer', what limits roots, and its 'depth', like {layer: lithic, depth: 80 "
                       "cm}");
    if (soil.has("tolerance"))
        reader.mistake(node.at, "one-of",
                       "T is given as 'tolerance' and 'by depth'; the survey's own is the better one");
    if (!layer || !depth) return;
    const double depth_cm = depth->stated.value / 10;
    if (!(depth_cm > 0) || depth_cm > 1000) {
        reader.mistake(depth->at, "range", "The depth to what limits roots lies above 0 and up to 10 m");
        return;
    }
    source::Origin origin = source::origin_of("tolerance");
    origin.from += fmt::format(": {} at {:.0f} cm", *layer, depth_cm);
    field.tolerance = spread::Stated{
        factors::tolerance_by_depth_us(*layer, {depth_cm, depth_cm}) * units::t_ha_per_ton_acre, {}, origin};
}

void read_tolerance(const Section& section, loss::Field& field) {
    const Reader& reader = section.reader();
    if (const Node* by_depth = section.find("tolerance by depth")) {
        read_tolerance_by_depth(section, *by_depth, field);
        return;
    }
    const auto T = figure(section, "tolerance", Kind::soil_loss);
    if (!T) {
        if (!section.has("tolerance"))
            reader.note(section.at(), "no-tolerance",
                        "The tolerance T of this soil is not given, so the loss is held against nothing. Soil surveys "
                        "give it, 1 to 5 t/ac/yr");
        return;
    }
    const double us = T->stated.value / units::t_ha_per_ton_acre;
    const bool in_us = T->reading.unit != nullptr && T->reading.unit->system == units::System::us;
    if (!(us > 0)) {
        reader.mistake(T->at, "range",
                       "T is 0 or less, and no loss could meet it. What is T for this soil? Surveys give 1 "
                       "to 5 t/ac/yr; leave the key out when it isn't known");
    } else if (us > 5.01) {
        const std::string text =
            in_us ? fmt::format(
                        "T of {0:g} t/ac/yr is above 5, the highest that soil surveys give. {0:g} t/ha/yr would be "
                        "{1} t/ac/yr",
                        T->reading.written, units::figures(T->reading.written / units::t_ha_per_ton_acre, 2))
                  : fmt::format("T of {:g} t/ha/yr is {} t/ac/yr, above 5, the highest that soil surveys give",
                                T->stated.value, units::figures(us, 2));
        if (us > 20 && !T->confirmed)
            reader.mistake(T->at, "tolerance-high", text);
        else
            reader.caution(T->at, "tolerance-high", text);
    }
    field.tolerance = T->stated;
}

}  // namespace

void read_soil(const Section& soil, loss::Field& field) {
    const Reader& reader = soil.reader();
    const std::size_t before = reader.document.mistakes().size();
    field.map_unit = soil.text("map unit").value_or("");
    field.soil_name = soil.text("name").value_or("");
    read_texture(soil, field);
    read_organic(soil, field);
    field.soil.structure_code =
        read_code(soil, "structure", 4, factors::structure_words(), factors::structure_code, false);
    field.soil.permeability_code =
        read_code(soil, "permeability", 6, factors::permeability_words(), factors::permeability_code_of_word, true);
    if (const auto density = figure(soil, "bulk density", Kind::bulk_density)) {
        const double value = density->stated.value;
        if (value < 0.2 || value > 2.65)
            reader.mistake(
                density->at, "range",
                fmt::format("A bulk density of {:g} g/cm3 is none of soil; topsoil lies between 0.8 and 1.8", value));
        field.bulk_density = density->stated;
        field.soil.bulk_density = value;
    }
    read_erodibility(soil, before, field);
    read_tolerance(soil, field);
    if (const auto stable = percent(soil, "aggregates of this soil"))
        field.reference = structure::LocalReference{*stable};
}

}  // namespace soilhold::input
