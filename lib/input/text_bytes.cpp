#include "input/text_bytes.h"

#include <fmt/format.h>

namespace soilhold::input {

namespace {

bool starts_with(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }

/// Length of the UTF-8 letter at `at`; 0 when the bytes are none. Overlong forms and surrogates are none.
std::size_t letter_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) -> unsigned {
        return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
    };
    const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
    const unsigned first = byte(0);
    if (first < 0x80U) return 1;
    if (first >= 0xC2U && first <= 0xDFU) return follows(1) ? 2 : 0;
    if (first >= 0xE0U && first <= 0xEFU) {
        if (!follows(1) || !follows(2)) return 0;
        const unsigned letter = ((first & 0x0FU) << 12U) | ((byte(1) & 0x3FU) << 6U) | (byte(2) & 0x3FU);
        return letter < 0x800U || (letter >= 0xD800U && letter <= 0xDFFFU) ? 0 : 3;
    }
    if (first >= 0xF0U && first <= 0xF4U) {
        if (!follows(1) || !follows(2) || !follows(3)) return 0;
        const unsigned letter = ((first & 0x07U) << 18U) | ((byte(1) & 0x3FU) << 12U);
        return letter < 0x10000U || letter >= 0x110000U ? 0 : 4;
    }
    return 0;
}

}  // namespace

std::string with_line_feeds(std::string_view text) {
    if (starts_with(text, "\xEF\xBB\xBF")) text.remove_prefix(3);
    std::string result;
    result.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\r')
            result += text[i];
        else if (i + 1 >= text.size() || text[i + 1] != '\n')
            result += '\n';
    }
    return result;
}

std::optional<WrongByte> first_wrong_byte(std::string_view text) {
    if (starts_with(text, "\xFF\xFE") || starts_with(text, "\xFE\xFF"))
        return WrongByte{0, "not-utf8", "The file is written in UTF-16. Save it as UTF-8 or plain text", false};
    bool indentation = true;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = static_cast<unsigned char>(text[at]);
        if (c == '\n') {
            indentation = true;
            ++at;
            continue;
        }
        if (c == '\t' && indentation) {
            const std::size_t rest = text.find_first_not_of(" \t", at);
            if (rest != std::string_view::npos && text[rest] != '\n' && text[rest] != '#')
                return WrongByte{at, "tab",
                                 "The line begins with a tab. Indent with spaces: an editor may show a tab as "
                                 "any number of them",
                                 true};
        } else if (c != ' ') {
            indentation = false;
        }
        if ((c < 0x20U && c != '\t') || c == 0x7FU)
            return WrongByte{at, "not-text",
                             fmt::format("A control character (byte {}) stands here. Is this a text "
                                         "file?",
                                         c),
                             false};
        const std::size_t length = letter_length(text, at);
        if (length == 0)
            return WrongByte{at, "not-utf8",
                             fmt::format("The byte {} stands here, which is no UTF-8 letter. Save the "
                                         "file as UTF-8",
                                         c),
                             false};
        // U+0080 to U+009F are control characters too, some of which steer terminals.
        if (length == 2 && c == 0xC2U && static_cast<unsigned char>(text[at + 1]) < 0xA0U)
            return WrongByte{at, "not-text", "A control character stands here. Is this a text file?", false};
        at += length;
    }
    return std::nullopt;
}

}  // namespace soilhold::input
