/// The bytes of a field file before they are read as YAML: what an editor may leave behind, and what must not be there.
///
/// A byte-order mark and Windows line ends are taken; a tab as indentation, control characters, UTF-16 and bytes that
/// are no UTF-8 are mistakes with a place.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace soilhold::input {

/// The text without its UTF-8 byte-order mark, and with every line ended by a line feed alone.
std::string with_line_feeds(std::string_view text);

struct WrongByte {
    std::size_t offset = 0;
    std::string code;  ///< "not-utf8", "not-text", "tab"
    std::string text;
    bool show_line = false;  ///< whether the line can be shown as it stands
};

/// The first byte that a field file must not hold, with what to do about it.
std::optional<WrongByte> first_wrong_byte(std::string_view text);

}  // namespace soilhold::input
