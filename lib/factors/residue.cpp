#include "factors/residue.h"

#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

namespace {

constexpr double unit_plot_in = 0.24;

}  // namespace

double residue_area_per_mass_acre_lb(std::string_view crop) {
    for (const source::Row& row : source::table("residue-cover").rows)
        if (row.text("crop") == crop) return row.number("alpha_acre_lb");
    throw std::invalid_argument("no cover by mass is at hand for '" + std::string(crop) + "'");
}

double residue_cover_pct(double mass_lb_acre, double area_per_mass_acre_lb) {
    if (!(mass_lb_acre >= 0)) throw std::invalid_argument("a mass of residue must not be negative");
    if (!(area_per_mass_acre_lb > 0)) throw std::invalid_argument("cover by mass must be above 0 acre/lb");
    return 100.0 * (1.0 - std::exp(-area_per_mass_acre_lb * mass_lb_acre));
}

double residue_mass_for_cover_lb_acre(double cover_pct, double area_per_mass_acre_lb) {
    if (!(cover_pct >= 0 && cover_pct < 100)) throw std::invalid_argument("cover lies from 0 to below 100 %");
    if (!(area_per_mass_acre_lb > 0)) throw std::invalid_argument("cover by mass must be above 0 acre/lb");
    return -std::log(1.0 - cover_pct / 100.0) / area_per_mass_acre_lb;
}

double cover_after_mulch_tiller_pct(double start_cover_pct, int shovel_in, bool fragile) {
    if (!(start_cover_pct >= 0 && start_cover_pct <= 100)) throw std::invalid_argument("cover lies from 0 to 100 %");
    std::optional<double> above, left_above;
    double below = 0, left_below = 0;
    for (const source::Row& row : source::table("mulch-tiller").rows) {
        if (static_cast<int>(row.number("shovel_in")) != shovel_in ||
            row.text("residue") != (fragile ? "fragile" : "non-fragile"))
            continue;
        const double start = row.number("start_cover_pct"), left = row.number("left_pct");
        if (start >= start_cover_pct && (!above || start < *above)) {
            above = start;
            left_above = left;
        }
        if (start <= start_cover_pct && start > below) {
            below = start;
            left_below = left;
        }
    }
    if (!above) throw std::invalid_argument("the table has shovels of 2, 3 and 4 inches");
    if (*above == below) return left_below;
    return left_below + (*left_above - left_below) * (start_cover_pct - below) / (*above - below);
}

double roughness_left(double rain_in, double erosivity_us) {
    if (!(rain_in >= 0 && erosivity_us >= 0)) throw std::invalid_argument("rain and erosivity must not be negative");
    return std::exp(0.5 * (-0.14 * rain_in) + 0.5 * (-0.012 * erosivity_us));
}

double weathered_roughness_mm(double initial_roughness_mm, double roughness_share_left) {
    return 25.4 * (unit_plot_in + roughness_share_left * (initial_roughness_mm / 25.4 - unit_plot_in));
}

double roughness_after_operation_mm(double tabled_roughness_mm, double biomass_lb_acre_in) {
    if (!(biomass_lb_acre_in >= 0)) throw std::invalid_argument("biomass must not be negative");
    const double share = 0.8 * (1.0 - std::exp(-0.0012 * biomass_lb_acre_in)) + 0.2;
    return 25.4 * (unit_plot_in + (tabled_roughness_mm / 25.4 - unit_plot_in) * share);
}

}  // namespace soilhold::factors
