#include "factors/mulch.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <string>

#include "source/reference_table.h"
#include "source/row_origin.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

const source::Row& site_row(std::string_view by, std::string_view cover) {
    for (const source::Row& row : source::table("site-covers").rows)
        if (row.text("by") == by && row.text("cover") == cover) return row;
    throw std::invalid_argument("this list has no cover '" + std::string(cover) + "'");
}

}  // namespace

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
    MulchCover cover{row.number("C"), std::nullopt, row.text("slope_pct"), source::row_origin("mulch-537", row)};
    if (!row.empty("length_limit_ft")) cover.length_limit_m = row.number("length_limit_ft") * units::metre_per_foot;
    return cover;
}

std::vector<std::string> mulch_materials() {
    std::vector<std::string> materials;
    for (const source::Row& row : source::table("construction-mulch").rows) {
        const std::string& mulch = row.text("mulch");
        if (row.number("tons_per_acre") > 0 && (materials.empty() || materials.back() != mulch))
            materials.push_back(mulch);
    }
    return materials;
}

std::vector<double> mulch_rates(std::string_view mulch) {
    std::vector<double> rates;
    for (const source::Row& row : source::table("construction-mulch").rows) {
        const double rate = row.number("tons_per_acre");
        if (row.text("mulch") == mulch && (rates.empty() || rates.back() != rate)) rates.push_back(rate);
    }
    return rates;
}

ClassLimits mulch_slopes(std::string_view mulch, double tons_per_acre) {
    std::optional<ClassLimits> slopes;
    for (const source::Row& row : source::table("construction-mulch").rows) {
        if (row.text("mulch") != mulch || row.number("tons_per_acre") != tons_per_acre) continue;
        const ClassLimits own = class_limits(row.text("slope_pct"));
        slopes = slopes ? ClassLimits{std::min(slopes->from, own.from), std::max(slopes->to, own.to)} : own;
    }
    if (!slopes)
        throw std::invalid_argument(fmt::format("the table has no {} at {:g} tons/acre", mulch, tons_per_acre));
    return *slopes;
}

std::vector<std::string> site_covers(std::string_view by) {
    std::vector<std::string> covers;
    for (const source::Row& row : source::table("site-covers").rows)
        if (row.text("by") == by) covers.push_back(row.text("cover"));
    return covers;
}

double site_cover_factor(std::string_view by, std::string_view cover) { return site_row(by, cover).number("C"); }

source::Origin site_cover_origin(std::string_view by, std::string_view cover) {
    const bool of_goldman = by == "goldman";
    return source::row_origin(of_goldman ? "site-covers-goldman" : "site-covers-agency", site_row(by, cover));
}

double mulch_effectiveness_b(double plot_length_m) {
    if (!(plot_length_m > 0)) throw std::invalid_argument("the length of a plot must be above 0 m");
    return 0.022 + 0.0017 * plot_length_m;
}

}  // namespace soilhold::factors
