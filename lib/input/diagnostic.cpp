#include "input/diagnostic.h"

#include <fmt/format.h>

namespace soilhold::input {

std::string render(const Diagnostic& diagnostic) {
    const Place& place = diagnostic.place;
    std::string text = place.file;
    if (place.line > 0) text += fmt::format(":{}:{}", place.line, place.column);
    text += fmt::format(": {} [{}]\n", diagnostic.text, diagnostic.code);
    if (place.line > 0 && !diagnostic.source_line.empty()) {
        const std::string number = fmt::format("{:5d} | ", place.line);
        text += fmt::format("{}{}\n", number, diagnostic.source_line);
        std::string caret(number.size() - 2, ' ');
        caret += "| ";
        // Tabs stay tabs, and bytes inside a UTF-8 letter take no column, so that the caret stands where the eye sees it.
        for (int i = 0; i + 1 < place.column && i < static_cast<int>(diagnostic.source_line.size()); ++i) {
            const auto c = static_cast<unsigned char>(diagnostic.source_line[static_cast<std::size_t>(i)]);
            if (c == '\t') caret += '\t';
            else if ((c & 0xC0U) != 0x80U) caret += ' ';
        }
        text += caret + "^\n";
    }
    return text;
}

}  // namespace soilhold::input
