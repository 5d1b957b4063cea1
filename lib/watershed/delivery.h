/// The relations on offer for what share of a field's soil reaches a channel, side by side; one is chosen to rank by.
///
///   distance  exp(1.10 - 0.34 ln D) of each cell's way D to the channel, m, weighted by loss: each field its own
///   vanoni, boyce, scs  by the ground A, km2, that the largest stream of the map drains: one share for all fields
/// None was made for a field, and shares of basins of one size differ several-fold. Beside the relation each field
/// keeps a doubt of its own: the share lies between half and twice the relation's, 19 times in 20 (our assumption).
/// @source  factors/delivery.h; that D is in metres is our assumption, the unit was not visible in the source; the
///          spread: data/reference/default-spreads.csv
#pragma once

#include <array>
#include <optional>

#include "source/citation.h"

namespace soilhold::watershed {

/// In this order wherever there are four.
enum class Delivery { distance, vanoni, boyce, scs };
inline constexpr std::array deliveries{Delivery::distance, Delivery::vanoni, Delivery::boyce, Delivery::scs};
inline constexpr std::array<const char*, 4> delivery_names{"distance", "vanoni", "boyce", "scs"};

/// Share of the soil that reaches a channel by each relation, 0..1; none where it can't be told.
using DeliveryRatios = std::array<std::optional<double>, 4>;

/// By the drained ground alone. @param basin_km2  0 or less: none
DeliveryRatios ratios_by_area(double basin_km2);

/// By one cell's way. @param way_m  a cell is taken as no nearer than half its width @param cell_m  > 0
double ratio_by_way(double way_m, double cell_m);

source::Origin origin_of_delivery(Delivery relation);

/// Standard deviation of ln share of a field, whatever the relation.
double delivery_log_sd();

}  // namespace soilhold::watershed
