#include "factors/quantities.h"

// Crops and residue: cropstages, cover by mass, what tillage and rain leave.
#include <stdexcept>

#include "factors/cropstage.h"
#include "factors/residue.h"
#include "source/reference_table.h"

namespace soilhold::factors {

namespace {

/// Cover by mass as given, or the crop's own.
double area_per_mass(const Inputs& in) {
    if (in.has("alpha_acre_per_lb")) return in.positive("alpha_acre_per_lb");
    return residue_area_per_mass_acre_lb(in.words("crop"));
}

int shovel_of(const std::string& words) {
    for (const int inches : {2, 3, 4})
        if (words == std::to_string(inches) + " in") return inches;
    throw std::invalid_argument("'shovel' is 2 in, 3 in or 4 in");
}

bool fragile_of(const std::string& words) {
    if (words == "fragile") return true;
    if (words == "non-fragile") return false;
    throw std::invalid_argument("'residue' is fragile or non-fragile");
}

bool is_start_of_table(double start_pct, int shovel_in, const std::string& residue) {
    for (const source::Row& row : source::table("mulch-tiller").rows)
        if (row.number("start_cover_pct") == start_pct && row.number("shovel_in") == shovel_in &&
            row.text("residue") == residue)
            return true;
    return false;
}

}  // namespace

std::vector<Quantity> residue_quantities() {
    return {
        {"residue_cover_from_mass",
         "%",
         {"crop", "alpha_acre_per_lb?", "residue_lb_per_acre"},
         [](const Inputs& in) {
             return by_equation(residue_cover_pct(in.number("residue_lb_per_acre"), area_per_mass(in)),
                                "residue-cover-relation");
         }},
        {"residue_mass_for_cover",
         "lb/acre",
         {"crop", "alpha_acre_per_lb?", "cover_pct"},
         [](const Inputs& in) {
             return by_equation(residue_mass_for_cover_lb_acre(in.number("cover_pct"), area_per_mass(in)),
                                "residue-cover-relation");
         }},
        {"residue_after_mulch_tiller",
         "%",
         {"start_cover_pct", "shovel", "residue"},
         [](const Inputs& in) {
             const double start = in.share_pct("start_cover_pct");
             const int shovel = shovel_of(in.words("shovel"));
             const std::string& residue = in.words("residue");
             Answer result = by_table(cover_after_mulch_tiller_pct(start, shovel, fragile_of(residue)), "mulch-tiller");
             if (!is_start_of_table(start, shovel, residue))
                 result.remarks.push_back({source::Weight::note, "table-between",
                                           "The table has no such cell at hand; this lies straight between its "
                                           "neighbours."});
             return result;
         }},
        {"roughness_decay",
         "-",
         {"rain_in", "EI_us"},
         [](const Inputs& in) {
             return by_equation(roughness_left(in.number("rain_in"), in.number("EI_us")), "roughness-decay");
         }},
        {"soil_loss_ratio",
         "%",
         {"line", "spring_residue_lb_per_acre?", "cropstage"},
         [](const Inputs& in) {
             const int line = in.whole("line");
             // The line number stands for a mass of residue: both, if given, must mean the same line.
             if (in.has("spring_residue_lb_per_acre")) {
                 const source::Row& row =
                     source::row_where(source::table("soil-loss-ratios"), "line", std::to_string(line));
                 if (row.number("spring_residue_lb_acre") != in.number("spring_residue_lb_per_acre"))
                     throw std::invalid_argument("line " + std::to_string(line) + " is for " +
                                                 row.text("spring_residue_lb_acre") + " lb/acre of spring residue");
             }
             return by_table(100.0 * soil_loss_ratio(line, in.words("cropstage")), "soil-loss-ratios");
         }},
    };
}

}  // namespace soilhold::factors
