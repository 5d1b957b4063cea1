#include "input/clods_section.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "input/figure.h"
#include "input/known_keys.h"
namespace soilhold::input {

namespace {

constexpr std::size_t most_spots = 200;
constexpr std::size_t most_clods = 200;

std::optional<int> slake_class(const Reader& reader, const Node& node) {
    const auto text = scalar_text(reader, node, "class");
    if (!text) return std::nullopt;
    std::string why;
    try {
        const double number = units::read_number(*text);
        if (number >= 0 && number <= 6 && number == std::floor(number)) return static_cast<int>(number);
        if (number != std::floor(number))
            why = "a clod has a whole class; a mean of clods is no clod. Enter each clod";
        else if (number > 6 && number <= 100)
            why =
                "it may come from a scale in % left or from another key. Score each clod anew: class 5 is 25 to 75 % "
                "left after five dips, class 6 more";
        else
            why = "which scale was it scored on?";
    } catch (const units::ReadingError&) {
        why = text->find('%') != std::string::npos ? "it is a percentage. Class 4 is 10 to 25 % left after five dips, "
                                                     "5 is 25 to 75 %, 6 more; below 10 % it "
                                                     "is 3"
                                                   : "it is no number. A clod that can't be scored is left out";
    }
    reader.mistake(node.at, "slake-class", fmt::format("'{}' is no slake class, 0 to 6: {}", *text, why));
    return std::nullopt;
}

void read_clod(const Reader& reader, const Node& node, soiltest::Spot& spot) {
    soiltest::Clod clod;
    if (!node.is_mapping()) {
        const auto score = slake_class(reader, node);
        if (!score) return;
        clod.slake_class = *score;
    } else {
        const Section section(reader, "clod", &node);
        const Node* score = section.find("class");
        if (score == nullptr) {
            if (entry_of(&node, "class") == nullptr)
                reader.mistake(node.at, "missing", "This clod has no 'class', 0 to 6");
            return;
        }
        clod.slake_class = slake_class(reader, *score).value_or(0);
        clod.floated = section.yes_no("floated").value_or(false);
        clod.held_by_stone_or_root = section.yes_no("stone").value_or(false);
    }
    spot.clods.push_back(clod);
}

void read_spot(const Reader& reader, const Node& node, std::string name, soiltest::Record& record) {
    soiltest::Spot spot;
    spot.name = std::move(name);
    if (!node.is_list() || node.items.empty() || node.items.size() > most_clods) {
        reader.mistake(node.at, "spot",
                       fmt::format("'{}' is a list of the classes of its clods, like [2, 1, 3], with 1 to {} clods",
                                   spot.name, most_clods));
        return;
    }
    for (const Node& clod : node.items) read_clod(reader, clod, spot);
    record.slake_spots.push_back(std::move(spot));
}

}  // namespace

void read_slake(const Reader& reader, const Node& slake, soiltest::Record& record) {
    const std::size_t spots = slake.is_mapping() ? slake.entries.size() : slake.items.size();
    if (slake.is_scalar() || spots == 0 || spots > most_spots) {
        reader.mistake(slake.at, "spot",
                       fmt::format("'slake' holds one row a spot, like 'spot 1: [2, 1, 3]', at most {}", most_spots));
        return;
    }
    for (const Entry& spot : slake.entries) read_spot(reader, spot.value, readable(spot.key, 80), record);
    for (std::size_t i = 0; i < slake.items.size(); ++i)
        read_spot(reader, slake.items[i], fmt::format("spot {}", i + 1), record);
}

void read_slump(const Reader& reader, const Node& slump, soiltest::Record& record) {
    const Node* verdicts = &slump;
    if (slump.is_mapping()) {
        const Section section(reader, "slump", &slump);
        if (const auto soak = figure(section, "soak", units::Kind::duration)) {
            record.handling.slump_soak_s = soak->stated.value;
            if (!(soak->stated.value > 0)) reader.mistake(soak->at, "range", "'soak' is a time above 0, like 60 s");
        }
        verdicts = section.find("verdicts");
        if (verdicts == nullptr) {
            if (entry_of(&slump, "verdicts") == nullptr)
                reader.mistake(slump.at, "missing", "'slump' has no 'verdicts', like [slurry, partial]");
            return;
        }
    }
    if (!verdicts->is_list() || verdicts->items.empty() || verdicts->items.size() > most_clods) {
        reader.mistake(verdicts->at, "not-a-list", "'verdicts' is a list of holds, partial or slurry, one a strainer");
        return;
    }
    static constexpr auto words = std::to_array<std::string_view>({"holds", "partial", "slurry"});
    for (const Node& item : verdicts->items) {
        const auto text = scalar_text(reader, item, "verdicts");
        if (!text) continue;
        const std::string word = lower_case(*text);
        if (word == "holds")
            record.slump.push_back(soiltest::SlumpVerdict::holds);
        else if (word == "partial")
            record.slump.push_back(soiltest::SlumpVerdict::partial);
        else if (word == "slurry")
            record.slump.push_back(soiltest::SlumpVerdict::slurry);
        else
            reader.mistake(item.at, "unknown-word",
                           fmt::format("'{}' is no verdict{}; known are: {}", *text,
                                       nearest_word(words, word).empty()
                                           ? ""
                                           : fmt::format(" (did you mean '{}'?)", nearest_word(words, word)),
                                       joined(words)));
    }
}

}  // namespace soilhold::input
