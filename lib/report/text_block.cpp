#include "report/text_block.h"

#include <algorithm>

#include "report/columns.h"

namespace soilhold::report {

namespace {

constexpr const char* ellipsis = "\xe2\x80\xa6";

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

void drop_last_letter(std::string& text) {
    while (!text.empty() && continues(text.back())) text.pop_back();
    if (!text.empty()) text.pop_back();
}

std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    std::size_t at = 0;
    while ((at = text.find_first_not_of(" \n\t\r", at)) != std::string::npos) {
        const std::size_t end = std::min(text.find_first_of(" \n\t\r", at), text.size());
        words.push_back(text.substr(at, end - at));
        at = end;
    }
    return words;
}

}  // namespace

std::vector<std::string> broken(const std::string& text, double width, const TextStyle& style, const Measure& measure,
                                std::size_t most_lines) {
    const auto fits = [&](const std::string& line) { return measure(line, style.size, style.bold) <= width; };
    std::vector<std::string> lines;
    std::string line;
    for (std::string word : words_of(text)) {
        const std::string longer = line.empty() ? word : line + " " + word;
        if (fits(longer)) {
            line = longer;
            continue;
        }
        if (!line.empty()) lines.push_back(line);
        while (!fits(word) && width_of(word) > 1) {
            std::string head = word;
            while (!fits(head) && width_of(head) > 1) drop_last_letter(head);
            lines.push_back(head);
            word.erase(0, head.size());
        }
        line = word;
    }
    if (!line.empty()) lines.push_back(line);
    if (most_lines > 0 && lines.size() > most_lines) {
        lines.resize(most_lines);
        std::string& last = lines.back();
        while (!last.empty() && !fits(last + ellipsis)) drop_last_letter(last);
        while (!last.empty() && (last.back() == ' ' || last.back() == ',' || last.back() == '.')) last.pop_back();
        last += ellipsis;
    }
    return lines;
}

std::string shortened(const std::string& text, std::size_t most) {
    if (width_of(text) <= most) return text;
    std::string result;
    std::size_t letters = 0;
    for (const char c : text) {
        if (!continues(c) && ++letters >= most) break;
        result += c;
    }
    while (!result.empty() && result.back() == ' ') result.pop_back();
    return result + ellipsis;
}

std::string shortened_within(const std::string& text, std::size_t most) {
    if (width_of(text) <= most) return text;
    std::size_t tail_at = text.size();
    for (std::size_t letters = 0; tail_at > 0 && letters < most / 2;)
        if (!continues(text[--tail_at])) ++letters;
    std::size_t head_end = 0;
    for (std::size_t letters = 0; head_end < tail_at; ++head_end)
        if (!continues(text[head_end]) && ++letters > most - most / 2) break;
    std::string head = text.substr(0, head_end), tail = text.substr(tail_at);
    // Whole words are easier to know again, where that leaves enough of them.
    const std::size_t last_space = head.rfind(' '), first_space = tail.find(' ');
    if (last_space != std::string::npos && last_space > head.size() / 2) head.resize(last_space);
    if (first_space != std::string::npos && first_space < tail.size() / 2) tail.erase(0, first_space + 1);
    return head + " " + ellipsis + " " + tail;
}

double set_paragraph(Group& group, const std::string& text, Point top_left, double width, const TextStyle& style,
                     const Measure& measure, std::size_t most_lines) {
    double y = top_left.y;
    for (const std::string& line : broken(text, width, style, measure, most_lines)) {
        // The first baseline stands a letter's height and half the leading below the top.
        const double baseline = y + 0.5 * (style.line_height() - style.size) + 0.78 * style.size;
        group.marks.push_back(Text{{top_left.x, baseline}, line, style.size, style.bold, Anchor::start, Colour::ink});
        y += style.line_height();
    }
    return y;
}

}  // namespace soilhold::report
