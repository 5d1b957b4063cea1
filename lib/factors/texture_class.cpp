#include "factors/texture_class.h"

#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

std::string_view texture_class(double sand_pct, double silt_pct, double clay_pct) {
    if (!(sand_pct >= 0 && silt_pct >= 0 && clay_pct >= 0) ||
        !(std::abs(sand_pct + silt_pct + clay_pct - 100.0) <= 0.5))
        throw std::invalid_argument("sand, silt and clay must not be negative and must sum to 100 %");
    const double sand = sand_pct, silt = silt_pct, clay = clay_pct;
    if (clay >= 40) return silt >= 40 ? "silty clay" : sand > 45 ? "sandy clay" : "clay";
    if (clay >= 35 && sand > 45) return "sandy clay";
    if (clay >= 27 && sand <= 45) return sand <= 20 ? "silty clay loam" : "clay loam";
    if (clay >= 20 && silt < 28) return "sandy clay loam";
    if (silt >= 80 && clay < 12) return "silt";
    if (silt >= 50) return "silt loam";
    if (silt + 1.5 * clay < 15) return "sand";
    if (silt + 2 * clay < 30) return "loamy sand";
    if (clay < 7 || sand > 52) return "sandy loam";
    return "loam";
}

}  // namespace soilhold::factors
