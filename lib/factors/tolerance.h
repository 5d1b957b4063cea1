/// Tolerance T: the loss that planners of the United States set as a goal, by depth to what limits roots. And the index
/// R K LS / T of land that would erode fast if left bare.
///
/// T is a goal for planning, not a rate at which soil forms. The index takes neither C nor P: it grades the land, not
/// what is done on it; from 8 up the regulation of 1987 calls land highly erodible.
/// @source National Soil Survey Handbook 618.67 and 618.93 (read): data/reference/tolerance-by-depth.csv; 7 CFR 12.21
///         (read)
#pragma once

#include <string_view>

#include "factors/slope_class.h"

namespace soilhold::factors {

/// T [US ton/(acre yr)] by what lies below.
/// @param layer  "group 1", "group 2", "group 3" (how far the soil below can be renewed), "lithic", "paralithic or
/// densic"
/// @param depth_cm  to that layer; a range must lie within one class
/// @throws std::invalid_argument for other layers, negative depths or a range over two classes
double tolerance_by_depth_us(std::string_view layer, ClassLimits depth_cm);

/// Index R K LS / T; R, K and T of one system of units. @throws std::invalid_argument unless T > 0, others >= 0
double land_erodibility_index(double R, double K, double LS, double T);

/// From here on land counts as highly erodible.
inline constexpr double highly_erodible_index = 8.0;

}  // namespace soilhold::factors
