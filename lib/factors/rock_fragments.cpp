#include "factors/rock_fragments.h"

#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::factors {

double rock_mulch_factor(double volume_pct) {
    if (!(volume_pct >= 0 && volume_pct <= 100))
        throw std::invalid_argument("the volume of rock fragments lies from 0 to 100 %");
    double from = 0, factor_from = 1;
    for (const source::Row& row : source::table("rock-mulch-factor").rows) {
        const double to = row.number("volume_pct"), factor_to = row.number("factor");
        if (volume_pct <= to) return factor_from + (factor_to - factor_from) * (volume_pct - from) / (to - from);
        from = to;
        factor_from = factor_to;
    }
    return factor_from;
}

double whole_soil_erodibility(double fine_earth_erodibility, double volume_pct) {
    if (!(fine_earth_erodibility >= 0)) throw std::invalid_argument("K must not be negative");
    const double factor = rock_mulch_factor(volume_pct);
    return volume_pct < 15.0 ? fine_earth_erodibility : fine_earth_erodibility * factor;
}

}  // namespace soilhold::factors
