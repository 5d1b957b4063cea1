#include "factors/mulch.h"

#include <fmt/format.h>

#include <stdexcept>
#include <string>

#include "source/reference_table.h"
#include "units/unit.h"

namespace soilhold::factors {

MulchCover construction_mulch(std::string_view mulch, double tons_per_acre, ClassLimits slope) {
    const source::Table& table = source::table("construction-mulch");
    // One key for both, since a class belongs to a mulch at a rate.
    const std::string key = fmt::format("{} {:g}", mulch, tons_per_acre);
    const auto belongs = [](const source::Row& row, std::string_view sought) {
        return fmt::format("{} {:g}", row.text("mulch"), row.number("tons_per_acre")) == sought;
    };
    const auto found = row_of_class(table, "slope_pct", slope, belongs, key);
    if (!found)
        throw std::invalid_argument(
            fmt::format("the table of mulches has no row for {} at {:g} tons/acre on {:g}-{:g} %", mulch, tons_per_acre,
                        slope.from, slope.to));
    const source::Row& row = table.rows[*found];
    MulchCover cover{row.number("C"), std::nullopt};
    if (!row.empty("length_limit_ft")) cover.length_limit_m = row.number("length_limit_ft") * units::metre_per_foot;
    return cover;
}

double site_cover_factor(std::string_view by, std::string_view cover) {
    for (const source::Row& row : source::table("site-covers").rows)
        if (row.text("by") == by && row.text("cover") == cover) return row.number("C");
    throw std::invalid_argument("this list has no cover '" + std::string(cover) + "'");
}

double mulch_effectiveness_b(double plot_length_m) {
    if (!(plot_length_m > 0)) throw std::invalid_argument("the length of a plot must be above 0 m");
    return 0.022 + 0.0017 * plot_length_m;
}

}  // namespace soilhold::factors
