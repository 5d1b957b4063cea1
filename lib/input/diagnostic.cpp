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
        // A column counts letters. Tabs stay tabs, and the bytes inside a letter take no column, so that the caret
        // stands where the eye sees it.
        int letters = 0;
        for (const char byte : diagnostic.source_line) {
            const bool starts_letter = (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
            if (!starts_letter) continue;
            if (++letters >= place.column) break;
            caret += byte == '\t' ? '\t' : ' ';
        }
        text += caret + "^\n";
    }
    return text;
}

}  // namespace soilhold::input
