/// The tables of data/reference, compiled into the program.
///
/// A table is a CSV with a header line; every row has columns `source` and `standing` (a test checks it). Fields may be
/// quoted. Use it for data; the constants of an equation stand in the equation.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace soilhold::source {

/// One row, cells by column name.
class Row {
  public:
    Row(const std::vector<std::string>* header, std::vector<std::string> cells)
        : header_(header), cells_(std::move(cells)) {}
    /// @throws std::out_of_range when the table has no such column.
    const std::string& text(std::string_view column) const;
    /// @throws std::runtime_error when the cell is no number.
    double number(std::string_view column) const;
    bool empty(std::string_view column) const { return text(column).empty(); }

  private:
    const std::vector<std::string>* header_;
    std::vector<std::string> cells_;
};

struct Table {
    std::string name;
    std::vector<std::string> header;
    std::vector<Row> rows;
    Table() = default;
    Table(const Table&) = delete;  // rows point at the header
    Table& operator=(const Table&) = delete;
};

/// The table data/reference/<name>.csv. @throws std::out_of_range when there is none.
const Table& table(std::string_view name);

/// The first row whose cell in `column` equals `value`. @throws std::out_of_range when there is none.
const Row& row_where(const Table& table, std::string_view column, std::string_view value);

/// Cells of CSV text, quotes honoured; the first line is the header. For the compiled tables and for tests.
std::vector<std::vector<std::string>> split_csv(std::string_view text);

/// Name and text of every compiled table; defined in the generated reference_data.cpp.
const std::vector<std::pair<std::string_view, std::string_view>>& embedded_tables();

}  // namespace soilhold::source
