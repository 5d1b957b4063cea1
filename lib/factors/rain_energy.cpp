#include "factors/rain_energy.h"

#include <algorithm>
#include <cmath>

namespace soilhold::factors {

double unit_energy_537_us(double inches_per_hour) {
    if (inches_per_hour <= 0.0) return 0.0;
    return inches_per_hour > 3.0 ? 1074.0 : std::max(0.0, 916.0 + 331.0 * std::log10(inches_per_hour));
}

double unit_energy_537(double mm_per_hour) {
    if (mm_per_hour <= 0.0) return 0.0;
    return mm_per_hour > 76.0 ? 0.283 : std::max(0.0, 0.119 + 0.0873 * std::log10(mm_per_hour));
}

double unit_energy_brown_foster_us(double inches_per_hour) {
    return 1099.0 * (1.0 - 0.72 * std::exp(-1.27 * inches_per_hour));
}

double unit_energy_brown_foster(double mm_per_hour) { return 0.29 * (1.0 - 0.72 * std::exp(-0.05 * mm_per_hour)); }

}  // namespace soilhold::factors
