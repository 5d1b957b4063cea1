#include "rotation/canopy.h"

#include <algorithm>
#include <cmath>

namespace soilhold::rotation {

Warmth::Warmth(const ByHalfMonth& temperature_C, double base_C, double speed) {
    for (std::size_t i = 0; i < half_months; ++i) {
        per_day_[i] = speed * std::max(0.0, temperature_C[i] - base_C);
        sum_[i + 1] = sum_[i] + per_day_[i] * (first_day(i + 1) - first_day(i));
    }
}

double Warmth::until(double days) const {
    const double year = std::floor(days / 365.0);
    const double in_year = days - 365.0 * year;
    const std::size_t i = half_month_of(static_cast<int>(in_year) + 1);
    return year * sum_[half_months] + sum_[i] + (in_year - (first_day(i) - 1)) * per_day_[i];
}

double Warmth::reached(double sum) const {
    if (!(sum_[half_months] > 0)) return sum <= 0 ? 0.0 : 1e9;
    const double year = std::floor(sum / sum_[half_months]);
    const double rest = sum - year * sum_[half_months];
    for (std::size_t i = 0; i < half_months; ++i)
        if (sum_[i + 1] > rest)
            return 365.0 * year + (first_day(i) - 1) + (per_day_[i] > 0 ? (rest - sum_[i]) / per_day_[i] : 0.0);
    return 365.0 * (year + 1.0);
}

double smooth_growth(double x) {
    x = std::clamp(x, 0.0, 1.0);
    return x * x * (3.0 - 2.0 * x);
}

double grown_share(const Crop& crop, double warmth) {
    return smooth_growth((warmth - crop.warmth_emerged) / (crop.warmth_full - crop.warmth_emerged));
}

double canopy_share(const Crop& crop, double warmth) {
    const double share = grown_share(crop, warmth);
    if (crop.warmth_mature <= 0) return share;
    const double ripens = crop.warmth_mature - (crop.warmth_mature - crop.warmth_full) / 3.0;
    const double fallen = std::clamp((warmth - ripens) / (crop.warmth_mature - ripens), 0.0, 1.0);
    return share * (1.0 - fallen * (1.0 - crop.canopy_at_end));
}

double top_growth_share(const Crop& crop, double warmth) {
    if (crop.warmth_mature <= 0) return grown_share(crop, warmth);
    return smooth_growth((warmth - crop.warmth_emerged) / (crop.warmth_mature - crop.warmth_emerged));
}

double regrown_share(const Crop& crop, double warmth_since_cut) {
    return 0.2 + 0.8 * smooth_growth(warmth_since_cut / (0.6 * crop.warmth_full));
}

}  // namespace soilhold::rotation
