#include "input/rain_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cstring>

#include "input/file_text.h"
#include "input/time_stamp.h"

namespace soilhold::input {

namespace {

constexpr std::size_t most_bytes = 2'000'000'000;

/// A line fit to be shown: no bytes that a terminal might obey, and not longer than it can show.
std::string shown(std::string_view line) {
    std::string result(line.substr(0, 200));
    for (char& c : result)
        if ((c >= 0 && c < ' ' && c != '\t') || c == 0x7F || c < 0) c = '?';
    return result;
}

bool is_width(std::string_view cell) {
    std::size_t digits = 0;
    while (digits < cell.size() && cell[digits] >= '0' && cell[digits] <= '9') ++digits;
    if (digits == 0 || digits == cell.size()) return false;
    const char kind = cell[digits];
    return (kind == 's' || kind == 'n' || kind == 'd') && (digits + 1 == cell.size() || cell[digits + 1] == ' ');
}

char separator_of(std::string_view line) {
    if (line.find('\t') != std::string_view::npos) return '\t';
    const auto count = [&](char c) { return std::count(line.begin(), line.end(), c); };
    return count(';') > count(',') ? ';' : ',';
}

}  // namespace

void RainMistakes::add(int line, std::size_t offset, std::string_view source_line, const char* code, std::string text) {
    if (++count_ > most_shown) return;
    Diagnostic one;
    one.place = {file_, line, line > 0 ? static_cast<int>(offset) + 1 : 0};
    one.code = code;
    one.text = std::move(text);
    one.source_line = shown(source_line);
    shown_.push_back(std::move(one));
}

void RainMistakes::throw_if_any() const {
    if (count_ == 0) return;
    std::vector<Diagnostic> all = shown_;
    if (count_ > most_shown)
        all.push_back(
            {{file_, 0, 0}, "more-mistakes", fmt::format("{} more mistakes are not shown", count_ - most_shown), ""});
    throw InputError(std::move(all));
}

bool next_line(std::string_view text, std::size_t& at, std::string_view& line) {
    if (at >= text.size()) return false;
    const void* end = std::memchr(text.data() + at, '\n', text.size() - at);
    const std::size_t stop = end ? static_cast<std::size_t>(static_cast<const char*>(end) - text.data()) : text.size();
    line = text.substr(at, stop - at);
    at = stop + 1;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    return true;
}

std::string_view bare_cell(std::string_view cell) {
    const auto trim = [&] {
        while (!cell.empty() && (cell.front() == ' ' || cell.front() == '\t')) cell.remove_prefix(1);
        while (!cell.empty() && (cell.back() == ' ' || cell.back() == '\t')) cell.remove_suffix(1);
    };
    trim();
    if (cell.size() >= 2 && cell.front() == '"' && cell.back() == '"') {
        cell.remove_prefix(1);
        cell.remove_suffix(1);
        trim();
    }
    return cell;
}

void split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells, std::size_t most) {
    cells.clear();
    std::size_t begin = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '"') {
            quoted = !quoted;
        } else if (line[i] == separator && !quoted) {
            cells.push_back(line.substr(begin, i - begin));
            if (cells.size() == most) return;
            begin = i + 1;
        }
    }
    cells.push_back(line.substr(begin));
}

RainTable read_rain_table(const std::string& path) {
    RainTable table;
    table.name = name_of_file(path);
    table.text = bytes_of_file(path, most_bytes, "a gauge record");
    RainMistakes mistakes(table.name);
    const std::string_view text = table.text;
    std::size_t at = 0;
    if (text.substr(0, 3) == "\xEF\xBB\xBF") at = 3;
    if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF")
        mistakes.add(0, 0, "", "not-utf8", "The file is written in UTF-16. Save it as UTF-8 or plain text");
    else if (std::memchr(text.data(), '\0', text.size()) != nullptr)
        mistakes.add(0, 0, "", "not-text", "The file holds bytes that are no text. Save the record as CSV");
    mistakes.throw_if_any();

    std::string_view line;
    std::vector<std::string_view> cells;
    int number = 0;
    for (std::size_t before = at; next_line(text, at, line); before = at) {
        ++number;
        if (bare_cell(line).empty() || line.front() == '#') continue;
        if (table.headings.empty()) {
            table.separator = separator_of(line);
            split_cells(line, table.separator, cells);
            const bool is_row = std::any_of(cells.begin(), cells.end(),
                                            [](auto cell) { return !read_time_stamp(bare_cell(cell)).wrong; });
            table.heading_line = line;
            table.heading_line_number = number;
            for (std::size_t i = 0; i < cells.size(); ++i)
                table.headings.push_back(is_row ? fmt::format("column {}", i + 1) : std::string(bare_cell(cells[i])));
            if (!is_row) continue;
        } else {
            split_cells(line, table.separator, cells);
            if (table.widths.empty() &&
                std::all_of(cells.begin(), cells.end(), [](auto cell) { return is_width(bare_cell(cell)); })) {
                for (const auto cell : cells) table.widths.emplace_back(bare_cell(cell));
                continue;
            }
        }
        table.first_row = before;
        table.first_row_number = number;
        return table;
    }
    mistakes.add(0, 0, "", "empty", "No row of a record stands in this file");
    mistakes.throw_if_any();
    return table;
}

}  // namespace soilhold::input
