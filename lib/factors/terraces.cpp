#include "factors/terraces.h"

#include <stdexcept>

#include "source/reference_table.h"
#include "units/unit.h"

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

std::optional<spread::Uncertain> share_past_terraces(const Terraces& terraces, double gradient) {
    if (terraces.method == TerraceMethod::handbook_703) return std::nullopt;
    const ClassLimits slope{100 * gradient, 100 * gradient};
    const bool sod = terraces.outlet == TerraceOutlet::sod_channel;
    const auto leaves = terrace_factor_537(
        slope, sod ? TerraceUse::sediment_by_sod_outlet : TerraceUse::sediment_by_underground_outlet);
    const auto between = terrace_factor_537(slope, TerraceUse::contoured_between);
    if (!leaves || !between) return std::nullopt;
    spread::Stated share;
    share.value = *leaves / *between;
    share.origin = source::origin_of("terraces-537");
    return spread::with_spread(
        share, "terrace-passing",
        {{"passes",
          std::string("share of the loss that leaves over ") +
              (sod ? "graded terraces with sod outlets" : "terraces with underground outlets"),
          "P of sediment that leaves / P of contouring",
          source::in_working(*leaves) + " / " + source::in_working(*between), share.value, "1", share.origin}});
}

double terrace_credit(const Terraces& terraces) {
    if (terraces.method == TerraceMethod::handbook_537) return 1.0;
    if (terraces.outlet == TerraceOutlet::sod_channel && !terraces.grade)
        throw std::invalid_argument("terraces with a sod channel need their grade");
    const double interval_ft = terraces.interval_m.value / units::metre_per_foot;
    const TerraceGrade grade = terraces.outlet == TerraceOutlet::underground ? TerraceGrade::closed_outlet
                                                                             : terrace_grade(100 * *terraces.grade);
    return terrace_factor_703({interval_ft, interval_ft}, grade).value_or(1.0);
}

}  // namespace soilhold::factors
