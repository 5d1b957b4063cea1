#include "factors/practice.h"

#include <fmt/format.h>

#include <string>
#include <utility>

#include "factors/contouring.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

/// 1 without doubt.
spread::Uncertain one(const source::Origin& origin, std::string why) {
    spread::Uncertain result = spread::exactly(1.0, origin);
    result.steps.push_back({"P", std::move(why), "", "", 1.0, "1", origin});
    return result;
}

spread::Uncertain none(const PracticeDescription& practice, std::string why) {
    return one(practice.origin.from.empty()
                   ? source::Origin{"no support practice", "loss-arithmetic", source::Standing::computed}
                   : practice.origin,
               std::move(why));
}

/// Contouring was asked for and the handbook's table gives nothing for it here.
spread::Uncertain withdrawn(std::string why, source::Remark remark) {
    spread::Uncertain result = one(source::origin_of("contouring"), std::move(why));
    result.remarks.push_back(std::move(remark));
    return result;
}

source::Step limit_step(const Contouring& row, bool heavy_residue, double limit_m, double length_m) {
    return {"limit",
            "longest slope for contour rows on " + row.slope_class + " %" +
                (heavy_residue ? ", a quarter more for heavy residue" : "") + "; this one has " +
                in_working(length_m / units::metre_per_foot) + " ft, " + in_working(length_m) + " m",
            "",
            heavy_residue ? in_working(row.length_limit_m) + " x " + in_working(heavy_residue_length_factor) : "",
            limit_m,
            "m",
            source::origin_of("contouring")};
}

spread::Uncertain of_contouring(const PracticeDescription& practice, double gradient, double length_m) {
    const auto row = contouring(gradient);
    if (!row)
        return withdrawn(
            "the table has no row for this steepness: no credit",
            {source::Weight::caution, "contour-slope",
             fmt::format("The table of contouring reaches from about 1 to 25 %; at {:.1f} % no credit is given.",
                         100 * gradient)});
    const double limit_m = row->length_limit_m * (practice.heavy_residue ? heavy_residue_length_factor : 1.0);
    const source::Step limit = limit_step(*row, practice.heavy_residue, limit_m, length_m);
    if (length_m > limit_m * (1 + 1e-9)) {
        spread::Uncertain result = withdrawn(
            "the slope is longer, rows break over: no credit",
            {source::Weight::caution, "contour-length",
             fmt::format("Contour rows on {:.1f} % hold up to about {:.0f} ft ({:.0f} m) of slope; here are {:.0f} ft "
                         "({:.0f} m), where they break over. No credit is given (P = 1). A terrace or strip that "
                         "cuts the slope would bring it back.",
                         100 * gradient, limit_m / units::metre_per_foot, limit_m, length_m / units::metre_per_foot,
                         length_m)});
        result.steps.insert(result.steps.begin(), limit);
        return result;
    }
    spread::Stated stated;
    stated.value = row->P;
    stated.origin = source::origin_of("contouring");
    source::Steps steps = {
        limit,
        {"P", "contour rows on " + in_working(100 * gradient) + " %: the row for " + row->slope_class + " %", "", "",
         row->P, "1", stated.origin}};
    if (practice.row_grade) {
        stated.value = off_grade_contour(row->P, *practice.row_grade, gradient);
        stated.origin.from += ", off grade";
        const std::string P = in_working(row->P);
        steps.push_back({"P", "rows off the level", "P + (1 - P) sqrt(row grade / slope)",
                         P + " + (1 - " + P + ") x sqrt(min(1, " + in_working(*practice.row_grade) + " / " +
                             in_working(gradient) + "))",
                         stated.value, "1", source::origin_of("off-grade")});
    }
    if (stated.value >= 1.0) return none(practice, "the rows earn no credit");
    return spread::with_spread(stated, "practice", std::move(steps));
}

/// The credit of contour strips: withdrawn beyond their length limit, that of contouring alone where they are too wide.
spread::Uncertain of_strips(const PracticeDescription& practice, double gradient, double length_m) {
    const double percent = 100 * gradient;
    const auto row = contour_strips({percent, percent}, practice.strips->rotation);
    const source::Origin table = source::origin_of("contour-strips");
    if (!row) {
        spread::Uncertain result = one(table, "the table has no row for this steepness: no credit");
        result.remarks.push_back({source::Weight::caution, "strips-slope",
                                  fmt::format("The table of contour strips reaches from 1 to 25 %; at {:.1f} % no "
                                              "credit is given.",
                                              percent)});
        return result;
    }
    const auto feet = [](double m) { return m / units::metre_per_foot; };
    if (length_m > row->length_limit_m * (1 + 1e-9)) {
        spread::Uncertain result = one(table, "the slope is longer, strips break over: no credit");
        result.remarks.push_back(
            {source::Weight::caution, "strips-length",
             fmt::format(
                 "Contour strips on {:.1f} % hold up to about {:.0f} ft ({:.0f} m) of slope; here are {:.0f} ft "
                 "({:.0f} m). No credit is given (P = 1). A terrace that cuts the slope would bring it back.",
                 percent, feet(row->length_limit_m), row->length_limit_m, feet(length_m), length_m)});
        return result;
    }
    if (practice.strips->width_m && *practice.strips->width_m > row->width_m * 1.01) {
        PracticeDescription rows = practice;
        rows.strips.reset();
        rows.contouring = true;
        spread::Uncertain result = of_contouring(rows, gradient, length_m);
        result.remarks.push_back(
            {source::Weight::caution, "strips-wide",
             fmt::format("Strips on {:.1f} % are at most {:.0f} ft ({:.0f} m) wide in the table; these are {:.0f} ft "
                         "({:.0f} m) and count as contouring only.",
                         percent, feet(row->width_m), row->width_m, feet(*practice.strips->width_m),
                         *practice.strips->width_m)});
        return result;
    }
    spread::Stated stated;
    stated.value = row->P;
    stated.origin = table;
    return spread::with_spread(
        stated, "practice",
        {{"P", "contour strips on " + in_working(percent) + " %, contouring within them", "", "", row->P, "1", table}});
}

/// P of what is done between terraces times their own credit by Handbook 703.
spread::Uncertain with_terraces(spread::Uncertain between, const Terraces& terraces) {
    const double credit = terrace_credit(terraces);
    if (credit >= 1.0) return between;
    spread::Stated stated;
    stated.value = between.central * credit;
    stated.origin = source::origin_of("terraces-703");
    source::Steps steps = std::move(between.steps);
    steps.push_back({"Pt", "terraces " + in_working(terraces.interval_m.value) + " m apart: soil kept near its place",
                     "", "", credit, "1", stated.origin});
    steps.push_back({"P", "both together", "P Pt", in_working(between.central) + " x " + in_working(credit),
                     stated.value, "1", source::origin_of("loss-arithmetic")});
    spread::Uncertain result = spread::with_spread(stated, "practice", std::move(steps));
    result.remarks = std::move(between.remarks);
    return result;
}

}  // namespace

spread::Stated length_left(const PracticeDescription& practice, const spread::Stated& length_m) {
    return practice.terraces && practice.terraces->interval_m.value < length_m.value ? practice.terraces->interval_m
                                                                                     : length_m;
}

spread::Uncertain support_practice(const PracticeDescription& practice, double gradient, double length_m) {
    if (practice.factor) {
        if (practice.factor->value == 1.0 && !practice.factor->range) return one(practice.factor->origin, "as given");
        return spread::with_spread(*practice.factor, "practice");
    }
    spread::Uncertain between = practice.strips       ? of_strips(practice, gradient, length_m)
                                : practice.contouring ? of_contouring(practice, gradient, length_m)
                                                      : none(practice, "no support practice");
    return practice.terraces ? with_terraces(std::move(between), *practice.terraces) : between;
}

std::optional<spread::Uncertain> share_leaving(const PracticeDescription& practice, double gradient) {
    if (practice.terraces)
        if (auto share = share_past_terraces(*practice.terraces, gradient)) return share;
    return practice.buffers ? share_past_buffers(*practice.buffers) : std::nullopt;
}

}  // namespace soilhold::factors
