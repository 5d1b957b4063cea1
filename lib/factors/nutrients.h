/// What a ton of lost soil holds, at prices the user sets.
///
/// Published figures differ five-fold by what is counted: say whose they are beside any sum. Per US short ton, as the
/// sources print.
/// @source Contents of a ton of soil: USDA-NRCS 2.32 lb nitrogen and 1 lb phosphorus (read in a farm journal). Organic
///         matter by Iowa State University, 2015: % of a ton's 2000 lb (read)
#pragma once

namespace soilhold::factors {

/// Contents of a US short ton of soil by USDA-NRCS, lb.
inline constexpr double nitrogen_lb_per_ton = 2.32;
inline constexpr double phosphorus_lb_per_ton = 1.0;

/// Value of nitrogen and phosphorus in a ton, price currency/ton. @param nitrogen_lb, phosphorus_lb  per ton, >= 0
/// @throws std::invalid_argument for negative figures (all functions here)
double nitrogen_phosphorus_value(double nitrogen_lb, double phosphorus_lb, double nitrogen_price,
                                 double phosphorus_price);

/// Pounds of organic matter in a ton of soil. @param organic_matter_pct  0 to 100
double organic_matter_lb_per_ton(double organic_matter_pct);

/// Its value per ton. @param price_per_lb  >= 0
double organic_matter_value(double organic_matter_pct, double price_per_lb);

}  // namespace soilhold::factors
