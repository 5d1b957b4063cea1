/// Every key that a field file may hold, section by section; docs/field-files.md and the schema name each of them.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace soilhold::input {

struct KnownKey {
    std::string_view section;  ///< "farm" (the file itself), "field", "soil", ..., "value" (a value written at length)
    std::string_view key;
};

std::span<const KnownKey> known_keys();

bool is_known(std::string_view section, std::string_view key);

/// The key of the section that was probably meant, or "" when none is near.
std::string nearest_key(std::string_view section, std::string_view written);

/// The word of a list that was probably meant, or "".
std::string nearest_word(std::span<const std::string_view> words, std::string_view written);

/// "soil, slope, rain": every key of a section.
std::string keys_of(std::string_view section);

/// The section to which a key belongs that was written in another one, or "".
std::string_view section_of(std::string_view key);

}  // namespace soilhold::input
