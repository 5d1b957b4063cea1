/// A loss by mass as a depth of soil: depth mm = loss t/ha / (10 bulk density). 1 mm at 1.3 t/m3 is 13 t/ha.
/// @source definition; agrees with 10 tons/acre = about 0.07 in (University of Missouri Extension G1650, read) and with
///         2 000 000 lb in six inches of an acre (North Dakota State University Extension, read; implies 1.47 t/m3)
#pragma once

namespace soilhold::factors {

/// Depth of soil that a loss takes off, mm.
/// @param loss          t/ha, >= 0
/// @param bulk_density  t/m3, > 0
/// @throws std::invalid_argument otherwise
double depth_of_loss_mm(double loss, double bulk_density);

/// Mass of a layer, t/ha: the inverse.
double mass_of_layer(double depth_mm, double bulk_density);

/// What the round figure of 2 000 000 lb in six inches of an acre takes the soil to weigh, t/m3.
inline constexpr double furrow_slice_bulk_density = 1.47;

}  // namespace soilhold::factors
