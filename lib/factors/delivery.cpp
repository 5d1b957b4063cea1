#include "factors/delivery.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::factors {

namespace {

double power_law(double coefficient, double size, double exponent) {
    if (!(size > 0)) throw std::invalid_argument("the area or distance of a basin must be above 0");
    return std::min(1.0, coefficient * std::pow(size, exponent));
}

}  // namespace

double delivery_ratio_vanoni(double area_km2) { return power_law(0.4724, area_km2, -0.125); }
double delivery_ratio_boyce(double area_km2) { return power_law(0.41, area_km2, -0.3); }
double delivery_ratio_scs(double area_km2) { return power_law(0.5656, area_km2, -0.11); }
double delivery_ratio_by_distance(double distance) { return power_law(std::exp(1.10), distance, -0.34); }

}  // namespace soilhold::factors
