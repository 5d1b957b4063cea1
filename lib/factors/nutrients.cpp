#include "factors/nutrients.h"

#include <stdexcept>

namespace soilhold::factors {

double nitrogen_phosphorus_value(double nitrogen_lb, double phosphorus_lb, double nitrogen_price,
                                 double phosphorus_price) {
    if (!(nitrogen_lb >= 0 && phosphorus_lb >= 0 && nitrogen_price >= 0 && phosphorus_price >= 0))
        throw std::invalid_argument("contents and prices must not be negative");
    return nitrogen_lb * nitrogen_price + phosphorus_lb * phosphorus_price;
}

double organic_matter_lb_per_ton(double organic_matter_pct) {
    if (!(organic_matter_pct >= 0 && organic_matter_pct <= 100))
        throw std::invalid_argument("organic matter lies from 0 to 100 %");
    return 2000.0 * organic_matter_pct / 100.0;
}

double organic_matter_value(double organic_matter_pct, double price_per_lb) {
    if (!(price_per_lb >= 0)) throw std::invalid_argument("a price must not be negative");
    return organic_matter_lb_per_ton(organic_matter_pct) * price_per_lb;
}

}  // namespace soilhold::factors
