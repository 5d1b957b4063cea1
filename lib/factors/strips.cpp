#include "factors/strips.h"

#include "source/reference_table.h"
#include "units/unit.h"

namespace soilhold::factors {

std::optional<ContourStrips> contour_strips(ClassLimits slope, StripRotation rotation) {
    const source::Table& table = source::table("contour-strips");
    const auto found = row_of_class(table, "slope_pct", slope, nullptr, "");
    if (!found) return std::nullopt;
    const source::Row& row = table.rows[*found];
    const char* column = rotation == StripRotation::meadow_two_years  ? "P_A"
                         : rotation == StripRotation::meadow_one_year ? "P_B"
                                                                      : "P_C";
    const source::Row& width = source::row_where(source::table("strip-widths"), "slope_pct", row.text("slope_pct"));
    return ContourStrips{row.number(column), width.number("width_ft") * units::metre_per_foot,
                         row.number("length_limit_ft") * units::metre_per_foot};
}

}  // namespace soilhold::factors
