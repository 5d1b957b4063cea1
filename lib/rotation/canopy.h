/// How a crop's canopy, height and roots grow with warmth, and fall when it ripens.
///
/// Warmth is the sum of (mean temperature - base) over days above the base, C d. With x = (warmth - emerged) / (full -
/// emerged) within 0..1 the canopy is its full share times x^2 (3 - 2x), height and roots likewise; from the full
/// canopy on it falls in a straight line, over the last third of the way to ripeness, to the share that stands at the
/// end. A cut or rested perennial begins again at a fifth and is full once it has had 60 % of the warmth from seeding.
/// @source our assumption; the handbook gives canopies by days since planting, which suit one place only
#pragma once

#include "rotation/crops.h"
#include "rotation/rotation.h"

namespace soilhold::rotation {

/// Sum of warmth above a base from 1 January of year 1 on.
class Warmth {
  public:
    /// @param speed  multiplies the warmth: > 1 for faster growth
    Warmth(const ByHalfMonth& temperature_C, double base_C, double speed = 1.0);
    /// @param days  since the rotation began, >= 0; 365 to the year
    double until(double days) const;
    /// First time, in days, at which `sum` is reached; 1e9 if never.
    double reached(double sum) const;

  private:
    std::array<double, half_months> per_day_{};
    std::array<double, half_months + 1> sum_{};
};

/// x^2 (3 - 2x), x held within 0..1.
double smooth_growth(double x);

/// Share of the full canopy of an annual after so much warmth since seeding.
double canopy_share(const Crop& crop, double warmth);

/// Share of full height and roots, and of what a perennial was when it was fully established.
double grown_share(const Crop& crop, double warmth);

/// Share of its ripe top growth that a cover crop has made.
double top_growth_share(const Crop& crop, double warmth);

/// Share of its full canopy that a perennial has again after so much warmth since it was cut or rested.
double regrown_share(const Crop& crop, double warmth_since_cut);

}  // namespace soilhold::rotation
