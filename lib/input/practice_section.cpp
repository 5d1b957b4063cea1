#include "input/practice_section.h"

#include <fmt/format.h>

#include <array>

#include "input/figure.h"
namespace soilhold::input {

namespace {

struct NamedPractice {
    std::string_view word;
    std::string_view code;
    std::string_view says;
};

constexpr std::string_view catches =
    "catches soil below the slope and is credited at the field's edge or the creek; it does not lower A, the loss on "
    "the "
    "slope above it. Leave it out of 'practice' and say so in words";
constexpr std::string_view gully =
    "keeps a channel from cutting, which this estimate of sheet and rill loss leaves out; it does not lower A";
constexpr std::string_view is_cover =
    "is part of C, the cover: give the C that holds it under 'cover', and it counts once";

/// Practices that people name and that are no support practice with a P here.
constexpr auto others = std::to_array<NamedPractice>({
    {"filter strip", "practice-elsewhere", catches},
    {"filter strips", "practice-elsewhere", catches},
    {"buffer strip", "practice-elsewhere", catches},
    {"buffer", "practice-elsewhere", catches},
    {"riparian buffer", "practice-elsewhere", catches},
    {"sediment basin", "practice-elsewhere", catches},
    {"waterway", "practice-elsewhere", gully},
    {"grassed waterway", "practice-elsewhere", gully},
    {"cover crop", "double-count", is_cover},
    {"no-till", "double-count", is_cover},
    {"mulch", "double-count", is_cover},
    {"residue", "double-count", is_cover},
    {"terraces", "practice-elsewhere", "shorten the slope: enter them as a change with a shorter 'length'"},
    {"terrace", "practice-elsewhere", "shorten the slope: enter them as a change with a shorter 'length'"},
    {"strip cropping", "practice-elsewhere",
     "has a P of its own that holds contouring: give it as 'practice: {factor: ...}' with its source"},
});

std::optional<factors::PracticeDescription> read_word(const Reader& reader, const Node& node) {
    const auto text = scalar_text(reader, node, "practice");
    if (!text) return std::nullopt;
    const std::string word = lower_case(*text);
    factors::PracticeDescription practice;
    practice.origin = {reader.default_from, "", source::Standing::users_figure};
    if (word == "none") return practice;
    if (word == "contouring" || word == "contour") {
        practice.contouring = true;
        return practice;
    }
    for (const NamedPractice& other : others)
        if (other.word == word) {
            reader.mistake(node.at, std::string(other.code), fmt::format("'{}' {}", *text, other.says));
            return std::nullopt;
        }
    reader.mistake(node.at, "unknown-word",
                   fmt::format("'{}' is no practice known here; write 'none', 'contouring', or a section with 'factor' "
                               "(P) or 'contouring'",
                               *text));
    return std::nullopt;
}

void read_list(const Reader& reader, const Node& node) {
    reader.mistake(
        node.at, "double-count",
        "Several practices stand in one list. Their factors must not be multiplied blindly: strip cropping "
        "holds contouring, terraces shorten the slope. Give one P for all of them as 'factor', with its source");
}

}  // namespace

std::optional<factors::PracticeDescription> read_practice(const Reader& reader, const Node& node) {
    if (node.is_scalar()) return read_word(reader, node);
    if (node.is_list()) {
        read_list(reader, node);
        return std::nullopt;
    }
    const Section section(reader, "practice", &node);
    factors::PracticeDescription practice;
    practice.origin = section.origin(node, "contouring");
    practice.contouring = section.yes_no("contouring").value_or(false);
    practice.heavy_residue = section.yes_no("heavy residue").value_or(false);
    if (const auto P = bare_figure(section, "factor", SpreadUse::used)) {
        if (!(P->stated.value > 0) || P->stated.value > 1) {
            reader.mistake(
                P->at, "practice-range",
                fmt::format(
                    "P is {:g}, and lies above 0 and up to 1, which is no practice at all{}", P->stated.value,
                    P->stated.value > 1 && P->stated.value <= 100
                        ? fmt::format(". If {:g} % was meant, write {:g}", P->stated.value, P->stated.value / 100)
                        : ""));
            return std::nullopt;
        }
        practice.factor = P->stated;
        if (practice.contouring)
            reader.mistake(
                P->at, "double-count",
                "P is given as 'factor' and 'contouring: yes' stands beside it, which would count the contour "
                "twice. A P of strips or terraces from a table holds contouring; keep one of the two");
    }
    if (const auto grade = figure(section, "row grade", units::Kind::steepness)) {
        practice.row_grade = grade->stated.value;
        if (grade->stated.value < 0 || grade->stated.value > 1)
            reader.mistake(grade->at, "range",
                           fmt::format("A row grade of {:g} % can't be right", 100 * grade->stated.value));
        else if (!practice.contouring)
            reader.note(grade->at, "row-grade-unused", "'row grade' is used with 'contouring: yes' only");
    }
    return practice;
}

}  // namespace soilhold::input
