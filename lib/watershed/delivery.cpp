#include "watershed/delivery.h"

#include <algorithm>

#include "factors/delivery.h"
#include "spread/uncertain.h"

namespace soilhold::watershed {

DeliveryRatios ratios_by_area(double basin_km2) {
    if (!(basin_km2 > 0)) return {};
    return {std::nullopt, factors::delivery_ratio_vanoni(basin_km2), factors::delivery_ratio_boyce(basin_km2),
            factors::delivery_ratio_scs(basin_km2)};
}

double ratio_by_way(double way_m, double cell_m) {
    return factors::delivery_ratio_by_distance(std::max(way_m, 0.5 * cell_m));
}

source::Origin origin_of_delivery(Delivery relation) {
    switch (relation) {
        case Delivery::distance:
            return source::origin_of("delivery-distance");
        case Delivery::vanoni:
            return source::origin_of("delivery-area-vanoni");
        case Delivery::boyce:
            return source::origin_of("delivery-area-boyce");
        case Delivery::scs:
            return source::origin_of("delivery-area-scs");
    }
    return {};
}

double delivery_log_sd() {
    return spread::log_sd(spread::with_spread({0.4, {}, {}}, "delivery"));  // the same for any share
}

}  // namespace soilhold::watershed
