#include "factors/terraces.h"

#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::factors {

std::optional<double> terrace_factor_537(ClassLimits slope, TerraceUse use) {
    const source::Table& table = source::table("terraces-537");
    const auto found = row_of_class(table, "slope_pct", slope, nullptr, "");
    if (!found) return std::nullopt;
    const source::Row& row = table.rows[*found];
    switch (use) {
        case TerraceUse::contoured_between:
            return row.number("contour");
        case TerraceUse::strips_between:
            return row.number("stripcrop");
        case TerraceUse::sediment_by_sod_outlet:
            return row.number("graded_sod_outlet");
        case TerraceUse::sediment_by_underground_outlet:
            break;
    }
    return row.number("underground_outlet");
}

TerraceGrade terrace_grade(double grade_pct) {
    if (!(grade_pct >= 0)) throw std::invalid_argument("the grade of a terrace must not be negative");
    return grade_pct < 0.35   ? TerraceGrade::to_0_3_pct
           : grade_pct < 0.75 ? TerraceGrade::to_0_7_pct
                              : TerraceGrade::steeper;
}

std::optional<double> terrace_factor_703(ClassLimits interval_ft, TerraceGrade grade) {
    const source::Table& table = source::table("terraces-703");
    const auto found = row_of_class(table, "interval_ft", interval_ft, nullptr, "");
    if (!found) return std::nullopt;
    const source::Row& row = table.rows[*found];
    switch (grade) {
        case TerraceGrade::closed_outlet:
            return row.number("closed_outlet");
        case TerraceGrade::to_0_3_pct:
            return row.number("grade_0_1_to_0_3");
        case TerraceGrade::to_0_7_pct:
            return row.number("grade_0_4_to_0_7");
        case TerraceGrade::steeper:
            break;
    }
    return row.number("grade_0_8_and_over");
}

}  // namespace soilhold::factors
