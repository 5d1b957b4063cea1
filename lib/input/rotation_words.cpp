#include "input/rotation_words.h"

#include <fmt/format.h>

#include <stdexcept>

#include "rotation/edit_words.h"
#include "rotation/short_forms.h"

namespace soilhold::input {

namespace {

/// Words as the short forms and edits take them; long numbers, which mean nothing there, are refused.
std::optional<std::string> plain_words(const Reader& reader, const Node& node, std::string_view key) {
    const auto written = scalar_text(reader, node, key);
    if (!written) return std::nullopt;
    std::string words;
    std::size_t digits = 0;
    for (const char c : lower_case(*written)) {
        digits = c >= '0' && c <= '9' ? digits + 1 : 0;
        if (digits > 4 || written->size() > 300) {
            reader.mistake(node.at, "rotation-words",
                           fmt::format("'{}' is no rotation in a few words", readable(*written, 60)));
            return std::nullopt;
        }
        words += c == '\n' || c == '\t' ? ' ' : c;
    }
    return words;
}

/// The usual days of a rotation in words, told by somebody.
rotation::Rotation told_by(rotation::Rotation rotation, const Reader& reader, const source::Origin& outer) {
    if (outer.from != reader.default_from)
        rotation.origin.from = fmt::format("{}, on {}", outer.from, rotation.origin.from);
    return rotation;
}

}  // namespace

std::string as_sentence(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::optional<rotation::Rotation> read_rotation_words(const Reader& reader, const Node& node,
                                                      const source::Origin& outer) {
    const auto words = plain_words(reader, node, "rotation");
    if (!words) return std::nullopt;
    try {
        return told_by(rotation::rotation_of_words(*words), reader, outer);
    } catch (const std::invalid_argument& unknown) {
        reader.mistake(node.at, "rotation-words", as_sentence(readable(unknown.what())));
        return std::nullopt;
    }
}

std::optional<rotation::Edited> read_edit(const Reader& reader, const Node& node, const source::Origin& outer,
                                          const rotation::Rotation* base) {
    const auto words = plain_words(reader, node, "rotation");
    if (!words) return std::nullopt;
    std::string no_whole, no_edit;
    try {
        const rotation::Rotation other = told_by(rotation::rotation_of_words(*words), reader, outer);
        return rotation::Edited{other, fmt::format("Another rotation: {}.", other.name), true};
    } catch (const std::invalid_argument& error) {
        no_whole = readable(error.what(), 300);
    }
    if (base == nullptr) {
        reader.mistake(node.at, "rotation-change",
                       fmt::format("The cover of this field is no rotation that '{}' could change, so a change needs a "
                                   "whole one, like 'corn-soybean, no-till' ({})",
                                   readable(*words, 60), no_whole));
        return std::nullopt;
    }
    try {
        rotation::Edited edited = rotation::edit_by_words(*base, *words);
        const std::vector<rotation::Problem> problems = rotation::problems_of(edited.rotation);
        if (!edited.changed) reader.caution(node.at, "rotation-unchanged", edited.sentence);
        if (problems.empty()) return edited;
        no_edit = problems.front().text;
    } catch (const std::invalid_argument& error) {
        no_edit = readable(error.what(), 500);
    }
    const bool crops_first = words->find(',') != std::string::npos && words->find(" after ") == std::string::npos;
    reader.mistake(node.at, "rotation-change",
                   crops_first ? fmt::format("As a whole rotation: {}. As a change: {}", no_whole, no_edit)
                               : as_sentence(no_edit));
    return std::nullopt;
}

}  // namespace soilhold::input
