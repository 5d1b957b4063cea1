#include "factors/geometric_mean_diameter.h"

#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

namespace {

double bell(double diameter_mm, double middle, double width) {
    if (!(diameter_mm > 0)) throw std::invalid_argument("a geometric mean diameter must be above 0 mm");
    const double z = (std::log10(diameter_mm) + middle) / width;
    return std::exp(-0.5 * z * z);
}

}  // namespace

double geometric_mean_diameter_mm(std::span<const GrainClass> classes) {
    double sum = 0, shares = 0;
    for (const GrainClass& one : classes) {
        const double middle = 0.5 * (one.from_mm + one.to_mm);
        if (!(one.share_pct >= 0) || !(one.from_mm >= 0) || !(middle > 0))
            throw std::invalid_argument("grain classes need shares and limits that are not negative");
        shares += one.share_pct;
        sum += 0.01 * one.share_pct * std::log(middle);
    }
    if (std::abs(shares - 100.0) > 0.5)
        throw std::invalid_argument("the shares of the grain classes must sum to 100 %");
    return std::exp(sum);
}

double erodibility_from_diameter(double diameter_mm) { return 0.0034 + 0.0405 * bell(diameter_mm, 1.659, 0.7101); }

double erodibility_from_diameter_us_soils(double diameter_mm) {
    return 0.0017 + 0.0494 * bell(diameter_mm, 1.675, 0.6986);
}

}  // namespace soilhold::factors
