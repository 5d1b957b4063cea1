#include "factors/rain_erosivity.h"

#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

double erosivity_from_annual_rain(double annual_rain_mm) {
    const double P = annual_rain_mm;
    if (!(P > 0)) throw std::invalid_argument("annual rain must be above 0 mm");
    return P <= 850.0 ? 0.0483 * std::pow(P, 1.610) : 587.8 - 1.219 * P + 0.004105 * P * P;
}

double modified_fournier_index(const std::array<double, 12>& monthly_rain_mm) {
    double sum = 0, squares = 0;
    for (const double p : monthly_rain_mm) {
        if (!(p >= 0)) throw std::invalid_argument("monthly rain must not be negative");
        sum += p;
        squares += p * p;
    }
    if (!(sum > 0)) throw std::invalid_argument("monthly rain must not be 0 in every month");
    return squares / sum;
}

double erosivity_from_fournier_index(double index_mm) {
    const double F = index_mm;
    return F < 55.0 ? 0.7397 * std::pow(F, 1.847) : 95.77 - 6.081 * F + 0.4770 * F * F;
}

}  // namespace soilhold::factors
