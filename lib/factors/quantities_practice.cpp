#include "factors/quantities.h"

// Support practice: contouring, strips, terraces.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/contouring.h"
#include "factors/practice_1976.h"
#include "factors/strips.h"
#include "factors/terraces.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

/// The one class of contouring that holds the whole of the slope's range.
Contouring contouring_of(const Inputs& in) {
    const ClassLimits slope = in.range("slope_pct");
    const auto low = contouring(slope.from / 100.0), high = contouring(slope.to / 100.0);
    if (!low || !high) throw std::invalid_argument("the table of contouring reaches from about 1 to 25 %");
    if (low->P != high->P || low->length_limit_m != high->length_limit_m)
        throw std::invalid_argument("that range of slope lies in more than one class of contouring");
    return *low;
}

StripRotation rotation_of(const Inputs& in) {
    if (!in.has("rotation")) return StripRotation::no_meadow;
    const std::string& word = in.words("rotation");
    if (word == "A") return StripRotation::meadow_two_years;
    if (word == "B") return StripRotation::meadow_one_year;
    if (word == "C") return StripRotation::no_meadow;
    throw std::invalid_argument("'rotation' is A (two years of meadow), B (one) or C (none)");
}

ContourStrips strips_of(const Inputs& in) {
    const auto strips = contour_strips(in.range("slope_pct"), rotation_of(in));
    if (!strips) throw std::invalid_argument("the table of strips has no class for that slope; it has 1 to 25 %");
    return *strips;
}

TerraceUse use_of(const std::string& words) {
    if (words == "contour factor for interterrace loss") return TerraceUse::contoured_between;
    if (words == "stripcrop factor for interterrace loss") return TerraceUse::strips_between;
    if (words == "sediment yield graded channel sod outlet") return TerraceUse::sediment_by_sod_outlet;
    if (words == "sediment yield steep backslope underground outlet") return TerraceUse::sediment_by_underground_outlet;
    throw std::invalid_argument(
        "'use' is 'contour factor for interterrace loss', 'stripcrop factor for interterrace loss', 'sediment yield "
        "graded channel sod outlet' or 'sediment yield steep backslope underground outlet'");
}

/// "closed outlet", "0.1-0.3", "0.8 and over", or a grade in per cent.
TerraceGrade grade_of(std::string words) {
    if (words == "closed outlet") return TerraceGrade::closed_outlet;
    const auto over = words.find(" and over");
    if (over != std::string::npos && over + 9 == words.size()) words.resize(over);
    const ClassLimits limits = class_limits(words);
    if (terrace_grade(limits.from) != terrace_grade(limits.to))
        throw std::invalid_argument("that range of grade lies in more than one class");
    return terrace_grade(limits.from);
}

}  // namespace

std::vector<Quantity> practice_quantities() {
    return {
        {"P_contour", "-", {"slope_pct"}, [](const Inputs& in) { return by_table(contouring_of(in).P, "contouring"); }},
        {"contour_length_limit",
         "ft",
         {"slope_pct", "heavy_residue?"},
         [](const Inputs& in) {
             double limit = contouring_of(in).length_limit_m / units::metre_per_foot;
             if (in.has("heavy_residue")) {
                 const std::string& word = in.words("heavy_residue");
                 if (word != "yes" && word != "no") throw std::invalid_argument("'heavy_residue' is yes or no");
                 if (word == "yes") limit *= heavy_residue_length_factor;
             }
             return by_table(limit, "contouring");
         }},
        {"P_contour_strip",
         "-",
         {"slope_pct", "rotation"},
         [](const Inputs& in) { return by_table(strips_of(in).P, "contour-strips"); }},
        {"strip_width_max",
         "ft",
         {"slope_pct"},
         [](const Inputs& in) { return by_table(strips_of(in).width_m / units::metre_per_foot, "strip-widths"); }},
        {"strip_length_limit",
         "ft",
         {"slope_pct"},
         [](const Inputs& in) {
             return by_table(strips_of(in).length_limit_m / units::metre_per_foot, "contour-strips");
         }},
        {"P_terrace",
         "-",
         {"slope_pct", "use"},
         [](const Inputs& in) {
             const TerraceUse use = use_of(in.words("use"));
             const auto P = terrace_factor_537(in.range("slope_pct"), use);
             if (!P) throw std::invalid_argument("the table of terraces has no class for that slope; it has 1 to 25 %");
             Answer result = by_table(*P, "terraces-537");
             if (use == TerraceUse::sediment_by_sod_outlet || use == TerraceUse::sediment_by_underground_outlet)
                 result.remarks.push_back({source::Weight::caution, "terrace-sediment",
                                           "This P is for sediment that leaves the field, not for soil lost on it."});
             return result;
         }},
        {"P_epa1976",
         "-",
         {"slope_pct", "practice"},
         [](const Inputs& in) {
             return by_table(practice_factor_1976(in.range("slope_pct"), in.words("practice")), "practice-1976");
         }},
        reported_quantity("P_track_walked_slope", "-", "practice"),
        {"P_terrace_ah703",
         "-",
         {"horizontal_interval_ft", "grade_pct"},
         [](const Inputs& in) {
             const auto P = terrace_factor_703(in.range("horizontal_interval_ft"), grade_of(in.words("grade_pct")));
             if (!P) throw std::invalid_argument("the table of terraces reaches to 300 ft between them");
             return by_table(*P, "terraces-703");
         }},
        {"P_off_grade_contour",
         "-",
         {"P_on_grade", "furrow_grade_pct", "land_slope_pct"},
         [](const Inputs& in) {
             const double P = in.not_negative("P_on_grade");
             const double row = in.not_negative("furrow_grade_pct"), land = in.positive("land_slope_pct");
             if (P > 1) throw std::invalid_argument("'P_on_grade' lies from 0 to 1");
             if (row > land) throw std::invalid_argument("rows can't be steeper than the land they lie on");
             return by_equation(off_grade_contour(P, row / 100.0, land / 100.0), "off-grade");
         }},
    };
}

}  // namespace soilhold::factors
