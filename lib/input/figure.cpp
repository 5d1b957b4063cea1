#include "input/figure.h"

#include <fmt/format.h>

#include <cmath>

#include "input/known_keys.h"

namespace soilhold::input {

namespace {

using units::Kind;

/// A ratio like 3:1, of which people mean two opposite things.
std::optional<std::pair<double, double>> ratio_of(const std::string& text) {
    const auto colon = text.find(':');
    if (colon == std::string::npos) return std::nullopt;
    try {
        const double first = units::read_number(text.substr(0, colon));
        const double second = units::read_number(text.substr(colon + 1));
        if (first > 0 && second > 0) return std::pair{first, second};
    } catch (const units::ReadingError&) {
    }
    return std::nullopt;
}

std::string degrees(double gradient) {
    return fmt::format("{:.3g} degrees", std::atan(gradient) * 180.0 / 3.14159265358979);
}

/// What a steepness without unit may mean, beyond percent and degrees.
bool mistake_of_steepness(const Reader& reader, const Node& node, const std::string& text) {
    if (const auto ratio = ratio_of(text)) {
        const double down = ratio->second / ratio->first;
        reader.mistake(
            node.at, "slope-ratio",
            fmt::format("'{0}' is a ratio. {1:g} across for {2:g} up is {3:.3g} % ({4}); {1:g} up for {2:g} "
                        "across is {5:.3g} % ({6}). Write the one that you mean with its %",
                        text, ratio->first, ratio->second, 100 * down, degrees(down), 100 / down, degrees(1 / down)));
        return true;
    }
    try {
        const double number = units::read_number(text);
        if (number > 0 && number < 1) {
            reader.mistake(node.at, "no-unit",
                           fmt::format("'{0}' has no unit: as rise over run it is {1:.3g} %, as a percentage {0} %, "
                                       "nearly level. Write the one that you mean with its %",
                                       text, 100 * number));
            return true;
        }
    } catch (const units::ReadingError&) {
    }
    return false;
}

void read_value_keys(const Section& section, const Node& node, std::string_view key, Figure& figure) {
    const Reader& reader = section.reader();
    for (const Entry& entry : node.entries)
        if (!is_known("value", entry.key)) {
            const std::string near = nearest_key("value", entry.key);
            reader.mistake(entry.at, "unknown-key",
                           near.empty()
                               ? fmt::format("'{}' is no key of a value; its keys are: {}", entry.key, keys_of("value"))
                               : fmt::format("'{}' is no key of a value; did you mean '{}'?", entry.key, near));
        }
    if (const Entry* confirmed = entry_of(&node, "confirmed"))
        figure.confirmed = yes_no_of(reader, confirmed->value, "confirmed").value_or(false);
    if (entry_of(&node, "value") == nullptr)
        reader.mistake(node.at, "no-value", fmt::format("'{}' is written at length but has no 'value:'", key));
}

/// Finds the scalar of a figure, written short or at length.
const Node* value_node(const Section& section, std::string_view key, Figure& result) {
    const Node* node = section.find(key);
    if (node == nullptr) return nullptr;
    result.stated.origin = section.origin(*node, key);
    result.at = node->at;
    if (!node->is_mapping()) return node;
    read_value_keys(section, *node, key, result);
    const Entry* value = entry_of(node, "value");
    if (value == nullptr) return nullptr;
    result.at = value->value.at;
    return &value->value;
}

std::optional<units::Reading> bare_number(const Reader& reader, const Node& node, std::string_view key) {
    const auto text = scalar_text(reader, node, key);
    if (!text) return std::nullopt;
    try {
        const double number = units::read_number(*text);
        return units::Reading{number, number, nullptr};
    } catch (const units::ReadingError& error) {
        std::string sentence = error.what();
        if (text->find('%') != std::string::npos) sentence += fmt::format("; '{}' is a plain number, without %", key);
        reader.mistake(node.at, error.code, sentence);
        return std::nullopt;
    }
}

void finish(const Section& section, std::string_view key, std::optional<Kind> kind, SpreadUse use, Figure& result) {
    const Node* node = section.find(key);
    const Entry* spread = entry_of(node, "spread");
    if (spread == nullptr) return;
    add_spread(section.reader(), spread->value, key, kind, result);
    if (use == SpreadUse::unused)
        section.reader().note(spread->at, "spread-unused",
                              fmt::format("The spread of '{}' is kept in the file but enters no figure", key));
}

}  // namespace

std::optional<units::Reading> quantity(const Reader& reader, const Node& node, std::string_view key, Kind kind) {
    const auto text = scalar_text(reader, node, key);
    if (!text) return std::nullopt;
    if (kind == Kind::steepness && mistake_of_steepness(reader, node, *text)) return std::nullopt;
    try {
        const units::Reading reading = units::read(kind, *text);
        if (std::isfinite(reading.si)) return reading;
        reader.mistake(node.at, "not-finite", fmt::format("'{}' is too large to be a number here", *text));
    } catch (const units::ReadingError& error) {
        std::string sentence = fmt::format("{}: {}", key, error.what());
        if (kind == Kind::soil_loss && error.code == "unknown-unit")
            sentence += ". A US ton has 2000 lb, a metric tonne 2205 lb; area and year belong to the unit";
        reader.mistake(node.at, error.code, sentence);
    }
    return std::nullopt;
}

void add_spread(const Reader& reader, const Node& node, std::string_view key, std::optional<Kind> kind,
                Figure& figure) {
    const auto text = scalar_text(reader, node, "spread");
    if (!text) return;
    const double value = figure.stated.value;
    spread::Range range;
    try {
        const std::string of_value = " of the value";
        const bool says_share = text->size() > of_value.size() && text->ends_with(of_value);
        const std::string body = says_share ? text->substr(0, text->size() - of_value.size()) : *text;
        const bool share = says_share || (body.ends_with("%") && body.find(" to ") == std::string::npos);
        if (body.find(" to ") != std::string::npos) {
            if (kind) {
                const auto [low, high] = units::read_range(*kind, body);
                range = {low.si, high.si};
            } else {
                const auto to = body.find(" to ");
                range = {units::read_number(body.substr(0, to)), units::read_number(body.substr(to + 4))};
            }
        } else if (share && !says_share && kind && (*kind == Kind::steepness || *kind == Kind::share)) {
            const double number = units::read(Kind::share, body).written;
            reader.mistake(
                node.at, "ambiguous-spread",
                fmt::format("A spread of '{0}' of a percentage could be {1:g} points ({2:.3g} to {3:.3g} %) or "
                            "{1:g} % of the value ({4:.3g} to {5:.3g} %). Write '{1:g} points', '{1:g} % of "
                            "the value' or a range",
                            body, number, 100 * value - number, 100 * value + number, 100 * value * (1 - number / 100),
                            100 * value * (1 + number / 100)));
            return;
        } else if (share) {
            const double part = units::read(Kind::share, body).si;
            range = {value * (1 - part), value * (1 + part)};
            if (!(part > 0 && part < 1)) throw units::ReadingError("range", "a spread lies between 0 % and 100 %");
        } else if (kind == Kind::steepness && body.find("point") != std::string::npos) {
            const double points = units::read_number(body.substr(0, body.find("point")));
            range = {value - points / 100, value + points / 100};
        } else {
            const double by = kind ? units::read(*kind, body).si : units::read_number(body);
            range = {value - by, value + by};
        }
    } catch (const units::ReadingError& error) {
        reader.mistake(node.at, error.code, fmt::format("spread of '{}': {}", key, error.what()));
        return;
    }
    const bool holds = range.low <= value && value <= range.high && range.low < range.high;
    if (!holds || !(range.low > 0) || !std::isfinite(range.high)) {
        reader.mistake(node.at, "spread-range",
                       fmt::format("The spread '{}' does not hold the value of '{}' between a low above 0 and a high",
                                   *text, key));
        return;
    }
    figure.stated.range = range;
}

std::optional<Figure> figure(const Section& section, std::string_view key, Kind kind, SpreadUse use) {
    Figure result;
    const Node* node = value_node(section, key, result);
    if (node == nullptr) return std::nullopt;
    const auto reading = quantity(section.reader(), *node, key, kind);
    if (!reading) return std::nullopt;
    result.reading = *reading;
    result.stated.value = reading->si;
    finish(section, key, kind, use, result);
    return result;
}

std::optional<Figure> bare_figure(const Section& section, std::string_view key, SpreadUse use) {
    Figure result;
    const Node* node = value_node(section, key, result);
    if (node == nullptr) return std::nullopt;
    const auto reading = bare_number(section.reader(), *node, key);
    if (!reading) return std::nullopt;
    result.reading = *reading;
    result.stated.value = reading->si;
    finish(section, key, std::nullopt, use, result);
    return result;
}

std::optional<double> percent(const Section& section, std::string_view key) {
    const auto found = figure(section, key, Kind::share);
    if (!found) return std::nullopt;
    const double value = found->reading.written;
    if (value >= 0 && value <= 100) return value;
    section.reader().mistake(found->at, "range",
                             fmt::format("'{}' is {:g} %, and a share lies between 0 and 100 %", key, value));
    return std::nullopt;
}

std::vector<double> figures_of(const Section& section, std::string_view key, Kind kind) {
    std::vector<double> values;
    const Node* node = section.find(key);
    if (node == nullptr) return values;
    const auto add = [&](const Node& item) {
        if (const auto reading = quantity(section.reader(), item, key, kind)) values.push_back(reading->si);
    };
    if (node->is_list())
        for (const Node& item : node->items) add(item);
    else
        add(*node);
    if (node->is_list() && node->items.empty())
        section.reader().mistake(node->at, "blank", fmt::format("The list of '{}' is empty", key));
    return values;
}

}  // namespace soilhold::input
