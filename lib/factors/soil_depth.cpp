#include "factors/soil_depth.h"

#include <stdexcept>

namespace soilhold::factors {

namespace {

void need(double amount, double bulk_density) {
    if (!(amount >= 0)) throw std::invalid_argument("a loss or depth of soil must not be negative");
    if (!(bulk_density > 0)) throw std::invalid_argument("bulk density must be above 0");
}

}  // namespace

double depth_of_loss_mm(double loss, double bulk_density) {
    need(loss, bulk_density);
    return loss / (10.0 * bulk_density);
}

double mass_of_layer(double depth_mm, double bulk_density) {
    need(depth_mm, bulk_density);
    return 10.0 * bulk_density * depth_mm;
}

}  // namespace soilhold::factors
