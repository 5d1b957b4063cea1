#include "factors/rain_erosivity.h"

#include <algorithm>
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

namespace {

void need_index(double index_mm) {
    if (!(index_mm > 0)) throw std::invalid_argument("the Fournier index must be above 0 mm");
}

}  // namespace

double erosivity_from_fournier_index(double index_mm) {
    need_index(index_mm);
    const double F = index_mm;
    return F < 55.0 ? 0.7397 * std::pow(F, 1.847) : 95.77 - 6.081 * F + 0.4770 * F * F;
}

double erosivity_rango_arnoldus(double index_mm) {
    need_index(index_mm);
    return std::pow(10.0, 1.74 * std::log10(index_mm) + 1.29);
}

double erosivity_arnoldus_1980(double index_mm) {
    need_index(index_mm);
    return std::max(0.0, 4.17 * index_mm - 152.0);
}

double erosivity_from_six_hour_rain_us(double two_year_six_hour_rain_in) {
    if (!(two_year_six_hour_rain_in > 0)) throw std::invalid_argument("the 2-year 6-hour rain must be above 0 inches");
    return 27.38 * std::pow(two_year_six_hour_rain_in, 2.17);
}

}  // namespace soilhold::factors
