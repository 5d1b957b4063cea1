#include "report/columns.h"

#include <algorithm>
#include <numeric>

namespace soilhold::report {

namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::string cut(const std::string& text, std::size_t width) {
    if (width_of(text) <= width) return text;
    std::string result;
    std::size_t used = 0;
    for (const char c : text) {
        if (!continues(c) && used + 2 >= width) break;
        if (!continues(c)) ++used;
        result += c;
    }
    while (!result.empty() && result.back() == ' ') result.pop_back();
    return result + "..";
}

}  // namespace

std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

std::string wrapped(const std::string& text, const std::string& first, const std::string& rest) {
    std::string result = first;
    std::size_t used = width_of(first);
    bool line_is_empty = true;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t begin = text.find_first_not_of(' ', at);
        if (begin == std::string::npos) break;
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const std::string word = text.substr(begin, end - begin);
        if (!line_is_empty && used + 1 + width_of(word) > terminal_columns) {
            result += "\n" + rest;
            used = width_of(rest);
            line_is_empty = true;
        }
        if (!line_is_empty) {
            result += ' ';
            ++used;
        }
        result += word;
        used += width_of(word);
        line_is_empty = false;
        at = end;
    }
    return result + "\n";
}

std::string table(const std::vector<std::vector<std::string>>& rows, const std::string& indent) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], width_of(row[c]));
    }
    const auto total = [&] {
        return indent.size() + std::accumulate(widths.begin(), widths.end(), std::size_t{0}) +
               2 * (widths.empty() ? 0 : widths.size() - 1);
    };
    while (!widths.empty() && total() > terminal_columns) {
        const auto widest = std::max_element(widths.begin(), widths.end());
        if (*widest <= 4) break;
        --*widest;
    }
    std::string result;
    for (const auto& row : rows) {
        std::string line = indent;
        for (std::size_t c = 0; c < row.size(); ++c) {
            const std::string text = cut(row[c], widths[c]);
            const std::string space(widths[c] - std::min(widths[c], width_of(text)), ' ');
            if (c == 0)
                line.append(text).append(space);
            else
                line.append("  ").append(space).append(text);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        result.append(line).append("\n");
    }
    return result;
}

}  // namespace soilhold::report
