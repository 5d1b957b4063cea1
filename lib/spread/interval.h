/// A result with its doubt: the value at the central inputs, and the central 80 % interval of the draws.
#pragma once

#include <vector>

namespace soilhold::spread {

struct Interval {
    double central = 0.0;
    double low = 0.0;   ///< 10 % of draws are below
    double high = 0.0;  ///< 10 % of draws are above
    bool operator==(const Interval&) const = default;
};

/// The quantile of draws by linear interpolation between order statistics (Hyndman & Fan 1996, type 7).
/// @param p  0 to 1. Reorders `draws`. @throws std::invalid_argument when there are none.
double quantile(std::vector<double>& draws, double p);

/// `central` with the 10 % and 90 % quantiles of the draws; widened to hold `central` should it lie outside.
Interval interval_of(double central, std::vector<double> draws);

}  // namespace soilhold::spread
