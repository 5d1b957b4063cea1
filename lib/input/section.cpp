#include "input/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "input/known_keys.h"

namespace soilhold::input {

namespace {

constexpr std::size_t longest_text = 2000;

/// Words that spreadsheets and people write where nothing is known.
constexpr auto no_value = std::to_array<std::string_view>(
    {"na", "n/a", "nan", ".nan", "none known", "unknown", "?", "-", "--", "tbd", "missing", "#n/a", "null", "nil"});

/// What to say of a word that is no key anywhere, but that people look for.
std::string_view advice_on(std::string_view section, std::string_view key) {
    if (section == "practice" || section == "change") {
        if (key.find("filter") != std::string_view::npos || key.find("buffer") != std::string_view::npos ||
            key.find("waterway") != std::string_view::npos || key.find("basin") != std::string_view::npos)
            return "It catches soil below the slope or keeps a gully from forming, and does not lower the loss A of "
                   "the slope above it. What strips of grass catch is shown by 'practice: {buffer strips: ...}'";
        if (key.find("strip") != std::string_view::npos)
            return "Strip cropping is 'practice: {strips: {meadow: two years}}' and holds contouring";
        if (key.find("terrace") != std::string_view::npos)
            return "Terraces are 'practice: {terraces: {interval: 100 ft}}': they cut the slope to their interval";
    }
    return {};
}

/// A section as a message names it.
std::string shown(std::string_view section) {
    if (section == "farm") return "a farm file";
    if (section == "field" || section == "one field") return "a field";
    if (section == "change" || section == "clod") return fmt::format("a {}", section);
    return fmt::format("'{}'", section);
}

/// A remark stands alone on a page, so it ends as a sentence does.
std::string sentence(std::string_view text) {
    std::string result = readable(text);
    if (!result.empty() && result.back() != '.' && result.back() != '?') result += '.';
    return result;
}

}  // namespace

void Reader::note(Position at, std::string code, std::string_view text) const {
    remarks.push_back({source::Weight::note, std::move(code), sentence(text), document.where(at)});
}

void Reader::caution(Position at, std::string code, std::string_view text) const {
    remarks.push_back({source::Weight::caution, std::move(code), sentence(text), document.where(at)});
}

void Reader::mistake(Position at, std::string code, std::string_view text) const {
    document.mistake(at, std::move(code), text);
}

const Entry* entry_of(const Node* mapping, std::string_view key) {
    if (mapping == nullptr || !mapping->is_mapping()) return nullptr;
    for (const Entry& entry : mapping->entries)
        if (entry.key == key) return &entry;
    return nullptr;
}

std::string lower_case(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

std::string joined(std::span<const std::string_view> words) {
    std::string list;
    for (const std::string_view word : words) list += (list.empty() ? "" : ", ") + std::string(word);
    return list;
}

std::optional<std::string> scalar_text(const Reader& reader, const Node& node, std::string_view key) {
    if (!node.is_scalar()) {
        reader.mistake(node.at, "not-a-value",
                       fmt::format("'{}' takes one value, and a {} stands here", key,
                                   node.is_list() ? "list [ ... ]" : "section { ... }"));
        return std::nullopt;
    }
    const auto first = node.text.find_first_not_of(" \t\n");
    const std::string text =
        first == std::string::npos ? "" : node.text.substr(first, node.text.find_last_not_of(" \t\n") - first + 1);
    if (text.size() > longest_text) {
        reader.mistake(node.at, "too-long",
                       fmt::format("The text of '{}' is {} bytes long; at most {} are taken. Is a quotation mark left "
                                   "open?",
                                   key, text.size(), longest_text));
        return std::nullopt;
    }
    if (text.empty()) {
        reader.mistake(node.at, "blank",
                       fmt::format("'{}' has no value. Write one, or leave the key out: blank is not "
                                   "taken as 0",
                                   key));
        return std::nullopt;
    }
    return text;
}

std::optional<bool> yes_no_of(const Reader& reader, const Node& node, std::string_view key) {
    const auto text = scalar_text(reader, node, key);
    if (!text) return std::nullopt;
    const std::string word = lower_case(*text);
    if (word == "yes" || word == "true" || word == "on" || word == "y") return true;
    if (word == "no" || word == "false" || word == "off" || word == "n") return false;
    reader.mistake(node.at, "not-yes-no", fmt::format("'{}' is '{}', and is answered by yes or no", key, *text));
    return std::nullopt;
}

Section::Section(const Reader& reader, std::string_view name, const Node* own, const Node* fallback)
    : reader_(&reader), own_(own), fallback_(fallback) {
    check_keys(own_, name);
    check_keys(fallback_, name);
    if (own_ != nullptr && !own_->is_mapping()) own_ = nullptr;
    if (fallback_ != nullptr && !fallback_->is_mapping()) fallback_ = nullptr;
}

void Section::check_keys(const Node* mapping, std::string_view name) const {
    if (mapping == nullptr) return;
    if (!mapping->is_mapping()) {
        reader_->mistake(mapping->at, "not-a-section",
                         fmt::format("'{}' is a section with keys of its own: {}", name, keys_of(name)));
        return;
    }
    for (const Entry& entry : mapping->entries) {
        if (is_known(name, entry.key)) continue;
        const std::string_view advice = advice_on(name, lower_case(entry.key));
        if (!advice.empty()) {
            reader_->mistake(entry.at, "practice-elsewhere",
                             fmt::format("'{}' is no key of {}. {}", entry.key, shown(name), advice));
            continue;
        }
        const std::string near = nearest_key(name, entry.key);
        const std::string_view home = section_of(entry.key);
        std::string text = fmt::format("'{}' is no key of {}", entry.key, shown(name));
        if (!near.empty())
            text += fmt::format("; did you mean '{}'?", near);
        else if (!home.empty())
            text += fmt::format("; it belongs in '{}'", home);
        else
            text += fmt::format(". Its keys are: {}", keys_of(name));
        reader_->mistake(entry.at, "unknown-key", text);
    }
}

Position Section::at() const { return own_ != nullptr ? own_->at : fallback_ != nullptr ? fallback_->at : Position{}; }

const Node* Section::holder_of(std::string_view key) const {
    if (entry_of(own_, key) != nullptr) return own_;
    if (entry_of(fallback_, key) != nullptr) return fallback_;
    return nullptr;
}

bool Section::own(std::string_view key) const { return entry_of(own_, key) != nullptr; }

const Node* Section::find(std::string_view key) const {
    const Entry* entry = entry_of(holder_of(key), key);
    if (entry == nullptr) return nullptr;
    const Node& value = entry->value;
    if (value.blank()) {
        reader_->mistake(
            entry->at, "blank",
            fmt::format("'{}' has no value. Write one, or leave the key out: blank is not taken as 0", key));
        return nullptr;
    }
    if (value.is_scalar()) {
        const std::string word = lower_case(value.text);
        if (std::find(no_value.begin(), no_value.end(), word) != no_value.end()) {
            reader_->mistake(
                value.at, "blank",
                fmt::format("'{}' is no value for '{}'. Leave the key out when it isn't known", value.text, key));
            return nullptr;
        }
    }
    return &value;
}

std::optional<std::string> Section::text(std::string_view key) const {
    const Node* node = find(key);
    return node ? scalar_text(*reader_, *node, key) : std::nullopt;
}

std::optional<bool> Section::yes_no(std::string_view key) const {
    const Node* node = find(key);
    return node ? yes_no_of(*reader_, *node, key) : std::nullopt;
}

std::optional<std::string> Section::word(std::string_view key, std::span<const std::string_view> words) const {
    const Node* node = find(key);
    const auto written = node ? scalar_text(*reader_, *node, key) : std::nullopt;
    if (!written) return std::nullopt;
    const std::string plain = lower_case(*written);
    if (std::find(words.begin(), words.end(), plain) != words.end()) return plain;
    const std::string near = nearest_word(words, *written);
    reader_->mistake(node->at, "unknown-word",
                     fmt::format("'{}' is not known for '{}'{}; known are: {}", *written, key,
                                 near.empty() ? "" : fmt::format(" (did you mean '{}'?)", near), joined(words)));
    return std::nullopt;
}

source::Origin Section::origin(const Node& value, std::string_view key) const {
    const Entry* own_from = entry_of(&value, "from");
    const Entry* section_from = entry_of(holder_of(key), "from");
    for (const Entry* from : {own_from, section_from}) {
        if (from == nullptr) continue;
        if (from->value.blank()) {
            reader_->mistake(from->at, "blank", "'from' has no value: say whose figure it is, or leave the key out");
            continue;
        }
        if (const auto text = scalar_text(*reader_, from->value, "from"))
            return {*text, "", source::Standing::users_figure};
    }
    return {reader_->default_from, "", source::Standing::users_figure};
}

}  // namespace soilhold::input
