#include "factors/practice_1976.h"

#include <stdexcept>
#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

double practice_factor_1976(ClassLimits slope, std::string_view practice) {
    const source::Table& table = source::table("practice-1976");
    const auto belongs = [](const source::Row& row, std::string_view key) { return row.text("practice") == key; };
    const auto found = row_of_class(table, "slope_pct", slope, belongs, practice);
    if (!found)
        throw std::invalid_argument("this table of P has no cell for '" + std::string(practice) + "' on that slope");
    return table.rows[*found].number("P");
}

}  // namespace soilhold::factors
