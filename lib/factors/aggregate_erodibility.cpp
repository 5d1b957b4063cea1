#include "factors/aggregate_erodibility.h"

namespace soilhold::factors {

double volcanic_soil_erodibility_us(const VolcanicSoil& soil) {
    return -0.03970 + 0.00311 * soil.unstable_below_250um_pct + 0.00043 * soil.silt_times_sand +
           0.00185 * soil.base_saturation_pct + 0.00258 * soil.silt_pct - 0.00823 * soil.modified_sand_pct;
}

double midwest_soil_erodibility_us(const MidwestSoil& soil) {
    return -0.204 + 0.385 * soil.aggregate_index - 0.013 * soil.montmorillonite_pct + 0.247 * soil.bulk_density +
           0.003 * soil.silt_times_sand - 0.005 * soil.dispersion_ratio;
}

}  // namespace soilhold::factors
