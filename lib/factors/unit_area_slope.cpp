#include "factors/unit_area_slope.h"

#include <cmath>
#include <stdexcept>

#include "factors/slope_length.h"

namespace soilhold::factors {

double unit_area_slope_factor(double area_per_width_m, double gradient) {
    if (!(area_per_width_m > 0)) throw std::invalid_argument("the area per unit width must be above 0 m");
    if (!(gradient >= 0)) throw std::invalid_argument("steepness must not be negative");
    return std::pow(area_per_width_m / 22.13, 0.4) * std::pow(sine_of(gradient) / 0.0896, 1.3);
}

double grid_cell_length_factor(double inflow_area_m2, double cell_m, double exponent, double aspect_rad) {
    if (!(inflow_area_m2 >= 0)) throw std::invalid_argument("the area that drains in must not be negative");
    if (!(cell_m > 0)) throw std::invalid_argument("the side of a cell must be above 0 m");
    if (!(exponent >= 0 && exponent <= 1)) throw std::invalid_argument("the length exponent m lies from 0 to 1");
    const double m = exponent;
    const double x = std::abs(std::sin(aspect_rad)) + std::abs(std::cos(aspect_rad));
    return (std::pow(inflow_area_m2 + cell_m * cell_m, m + 1) - std::pow(inflow_area_m2, m + 1)) /
           (std::pow(cell_m, m + 2) * std::pow(x, m) * std::pow(22.13, m));
}

}  // namespace soilhold::factors
