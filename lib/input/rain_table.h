/// The lines of a gauge record before anyone knows what its columns mean: separator, comments, headings, cells.
///
/// Comma, semicolon or tab, whichever the headings use; lines that begin with # are comments; quotation marks around a
/// cell are taken off. A second heading line of column widths ("5s", "15s", "6n rain, inches") is kept beside the
/// first, as in the tab-separated files of public gauge records.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "input/diagnostic.h"

namespace soilhold::input {

/// Mistakes of one file in order, of which the first twenty are shown and the others counted.
class RainMistakes {
  public:
    explicit RainMistakes(std::string file) : file_(std::move(file)) {}
    static constexpr std::size_t most_shown = 20;

    /// @param line  from 1, 0 for the file as a whole. @param offset  bytes from the start of the line
    void add(int line, std::size_t offset, std::string_view source_line, const char* code, std::string text);
    std::size_t count() const { return count_; }
    /// @throws InputError when there are any
    void throw_if_any() const;

  private:
    std::string file_;
    std::vector<Diagnostic> shown_;
    std::size_t count_ = 0;
};

struct RainTable {
    std::string name;  ///< of the file, as the user gave it
    std::string text;
    char separator = ',';
    std::vector<std::string> headings;  ///< "column 1", ... when the file has none
    std::vector<std::string> widths;    ///< the second heading line, or none
    std::string heading_line;
    int heading_line_number = 0;
    std::size_t first_row = 0;  ///< byte where the rows begin
    int first_row_number = 1;   ///< its line, from 1
};

/// Next line from `at`, without its end; moves `at` behind it. False at the end of the text.
bool next_line(std::string_view text, std::size_t& at, std::string_view& line);

/// A cell without spaces and quotation marks around it.
std::string_view bare_cell(std::string_view cell);

/// The cells of a line, as they stand, up to `most` of them; `cells` is used again from line to line.
void split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells,
                 std::size_t most = static_cast<std::size_t>(-1));

/// @param path  "-" is standard input. @throws InputError for a file that can't be read as text or holds no row
RainTable read_rain_table(const std::string& path);

}  // namespace soilhold::input
