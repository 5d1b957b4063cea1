#include "factors/texture_carbon.h"

#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

double texture_carbon_erodibility_us(double sand_pct, double silt_pct, double clay_pct, double organic_carbon_pct) {
    if (!(sand_pct >= 0 && silt_pct >= 0 && clay_pct >= 0) || std::abs(sand_pct + silt_pct + clay_pct - 100.0) > 0.5)
        throw std::invalid_argument("sand, silt and clay must not be negative and must sum to 100 %");
    if (!(silt_pct + clay_pct > 0)) throw std::invalid_argument("this relation needs some silt or clay");
    if (!(organic_carbon_pct >= 0 && organic_carbon_pct <= 100))
        throw std::invalid_argument("organic carbon lies from 0 to 100 %");
    const double C = organic_carbon_pct, SN = 1.0 - sand_pct / 100.0;
    return (0.2 + 0.3 * std::exp(-0.0256 * sand_pct * (1.0 - silt_pct / 100.0))) *
           std::pow(silt_pct / (clay_pct + silt_pct), 0.3) * (1.0 - 0.25 * C / (C + std::exp(3.72 - 2.95 * C))) *
           (1.0 - 0.7 * SN / (SN + std::exp(-5.51 + 22.9 * SN)));
}

double organic_matter_of_carbon_pct(double organic_carbon_pct) {
    if (!(organic_carbon_pct >= 0)) throw std::invalid_argument("organic carbon must not be negative");
    return 1.72 * organic_carbon_pct;
}

}  // namespace soilhold::factors
