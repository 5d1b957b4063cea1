/// Plain text for a terminal: paragraphs wrapped at 80 columns, and small tables.
#pragma once

#include <string>
#include <vector>

namespace soilhold::report {

inline constexpr std::size_t terminal_columns = 80;

/// Letters of UTF-8 text, each counted as one column.
std::size_t width_of(const std::string& text);

/// The text broken at spaces; the first line after `first`, the others after `rest`. Ends with a line break.
std::string wrapped(const std::string& text, const std::string& first = "", const std::string& rest = "");

/// A table: the first column to the left, the others to the right, two spaces between; cells too long are cut with
/// "..". Columns shrink, the first one first, until a line fits the terminal.
std::string table(const std::vector<std::vector<std::string>>& rows, const std::string& indent = "  ");

}  // namespace soilhold::report
