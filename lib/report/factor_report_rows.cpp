#include "report/factor_report.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::report {

namespace {

/// Where each known column stands in the header; -1 where it doesn't.
class Columns {
  public:
    explicit Columns(const std::vector<std::string>& header) : header_(header) {
        for (const char* needed : {"quantity", "inputs"})
            if (place(needed) < 0) throw std::invalid_argument(std::string("The table has no column '") + needed + "'");
    }
    std::string cell(const std::vector<std::string>& row, const char* column) const {
        const std::ptrdiff_t at = place(column);
        return at < 0 ? "" : row.at(static_cast<std::size_t>(at));
    }

  private:
    std::ptrdiff_t place(const char* column) const {
        const auto found = std::find(header_.begin(), header_.end(), column);
        return found == header_.end() ? -1 : found - header_.begin();
    }
    const std::vector<std::string>& header_;
};

std::optional<double> number(const std::string& text) {
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    if (text.empty() || *end != '\0') return std::nullopt;
    return value;
}

Agreement agreement_of(double computed, double expected, double precision) {
    const double off = std::abs(computed - expected);
    // A hair of room: exactly half a unit is what rounding makes of a figure.
    const double hair = 1e-9 * std::abs(computed) + 1e-12;
    if (off <= 0.5 * precision + hair) return Agreement::reproduced;
    const double rounded = std::round(computed / precision) * precision;
    return std::abs(rounded - expected) <= precision * (1 + 1e-6) ? Agreement::last_digit : Agreement::differs;
}

/// The precision a figure was printed to, where the table has no column for it: one unit of its last digit.
double precision_of(const std::string& expected) {
    const auto point = expected.find('.');
    return point == std::string::npos ? 1.0 : std::pow(10.0, -static_cast<double>(expected.size() - point - 1));
}

}  // namespace

RowTable worked_rows(std::string_view csv) {
    const auto lines = source::split_csv(csv);
    if (lines.empty()) throw std::invalid_argument("The table is empty");
    const Columns columns(lines.front());
    RowTable table;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const std::vector<std::string>& cells = lines[i];
        if (cells.size() != lines.front().size())
            throw std::invalid_argument("Row " + std::to_string(i + 1) + " has " + std::to_string(cells.size()) +
                                        " cells under " + std::to_string(lines.front().size()) + " headings");
        WorkedRow row;
        row.id = columns.cell(cells, "id");
        if (row.id.empty()) row.id = "row " + std::to_string(i + 1);
        row.quantity = columns.cell(cells, "quantity");
        row.inputs = columns.cell(cells, "inputs");
        row.expected = columns.cell(cells, "expected");
        row.unit = columns.cell(cells, "unit");
        row.source = columns.cell(cells, "source");
        row.seen = columns.cell(cells, "seen");
        try {
            row.computed = factors::answer(row.quantity, row.inputs).value;
            if (const auto expected = number(row.expected)) {
                row.difference = row.computed - *expected;
                const auto printed = number(columns.cell(cells, "printed_precision"));
                row.agreement = agreement_of(row.computed, *expected, printed ? *printed : precision_of(row.expected));
            } else {
                row.agreement = Agreement::no_figure;
            }
        } catch (const std::invalid_argument& trouble) {
            row.trouble = trouble.what();
        }
        table.reproduced += row.agreement == Agreement::reproduced;
        table.last_digit += row.agreement == Agreement::last_digit;
        table.differing += row.agreement == Agreement::differs;
        table.refused += row.agreement == Agreement::refused;
        table.no_figure += row.agreement == Agreement::no_figure;
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace soilhold::report
