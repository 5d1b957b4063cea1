/// One quantity worked out or looked up alone, a table of rows tried against it, and the list of what there is.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "factors/quantities.h"

namespace soilhold::report {

std::string answer_text(const factors::Quantity& quantity, const factors::Answer& answer);
/// One object: quantity, value, unit, source, standing, citation, way, remarks.
std::string answer_json(const factors::Quantity& quantity, const factors::Answer& answer);

/// How a row's printed figure and the worked-out one agree.
enum class Agreement {
    reproduced,  ///< within half the printed precision
    last_digit,  ///< within one unit of the last printed digit, as tables that round their parts are
    differs,     ///< further off
    refused,     ///< the quantity is unknown, or the inputs are not for it
    no_figure,   ///< the row gives no expected figure: worked out only
};

struct WorkedRow {
    std::string id, quantity, inputs, expected, unit, source, seen;
    double computed = 0.0;
    double difference = 0.0;  ///< computed minus expected
    std::string trouble;      ///< why a row was refused
    Agreement agreement = Agreement::refused;
};

struct RowTable {
    std::vector<WorkedRow> rows;
    int reproduced = 0, last_digit = 0, differing = 0, refused = 0, no_figure = 0;
};

/// Works every row of CSV text with the columns id, quantity, inputs, expected, unit, printed_precision, source, seen
/// (only quantity and inputs are needed).
/// @throws std::invalid_argument when a needed column is missing or a line has another number of cells
RowTable worked_rows(std::string_view csv);

std::string rows_text(const RowTable& table);
std::string rows_csv(const RowTable& table);
std::string rows_json(const RowTable& table);

/// Every quantity with its inputs and unit.
std::string quantities_text();
std::string quantities_json();

}  // namespace soilhold::report
