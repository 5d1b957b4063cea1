#include "factors/cover_subfactors.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "units/unit.h"

namespace soilhold::factors {

namespace {

void need_fraction(double value, const char* what) {
    if (!(value >= 0.0 && value <= 1.0)) throw std::invalid_argument(std::string(what) + " is a share from 0 to 1");
}

}  // namespace

double canopy_subfactor(double canopy_fraction, double fall_height_m) {
    need_fraction(canopy_fraction, "canopy");
    const double H = fall_height_m / units::metre_per_foot;
    return 1.0 - canopy_fraction * std::exp(-0.1 * H);
}

double surface_cover_subfactor(double cover_fraction, double b, double roughness_mm) {
    need_fraction(cover_fraction, "surface cover");
    if (!(roughness_mm > 0)) throw std::invalid_argument("roughness must be above 0");
    const double Ru = roughness_mm / 25.4;
    return std::exp(-b * 100.0 * cover_fraction * std::pow(0.24 / Ru, 0.08));
}

double surface_roughness_subfactor(double roughness_mm) { return std::exp(-0.66 * (roughness_mm / 25.4 - 0.24)); }

double consolidation_subfactor(double years) {
    if (!(years >= 0)) throw std::invalid_argument("years undisturbed must not be negative");
    return std::pow(0.45, std::min(years, 7.0) / 7.0);
}

double prior_land_use_subfactor(double consolidation, double roots_lb_acre_in, double buried_residue_lb_acre_in) {
    const double Cf = consolidation;
    return Cf * 0.951 * std::exp(-(0.00199 * roots_lb_acre_in + 0.000416 * buried_residue_lb_acre_in / std::sqrt(Cf)));
}

}  // namespace soilhold::factors
