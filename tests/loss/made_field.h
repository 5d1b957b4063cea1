/// A field for tests: the worked pair of the trade notes (R 175, K 0.37 US, 6 %, 200 ft).
#pragma once

#include "loss/field.h"
#include "units/unit.h"

namespace soilhold::loss {

inline spread::Stated stated(double value, std::optional<spread::Range> range = {}) {
    return {value, range, {"a test", "", source::Standing::users_figure}};
}

inline Field made_field(std::string name, double C) {
    Field field;
    field.name = std::move(name);
    field.map_unit = "A";
    field.texture_class = "loam";
    field.rain.erosivity = stated(175 * units::erosivity_si_per_us);
    field.soil.erodibility = stated(0.37 * units::erodibility_si_per_us);
    field.soil.clay_pct = 18;
    field.soil.organic_matter_pct = 2.5;
    field.slope.length_m = stated(200 * units::metre_per_foot);
    field.slope.gradient = stated(0.06);
    field.cover.factor = stated(C);
    field.tolerance = stated(5 * units::t_ha_per_ton_acre);
    return field;
}

/// A spread that is even in the logarithm: times or divided by `factor`.
inline spread::Range times(double value, double factor) { return {value / factor, value * factor}; }

}  // namespace soilhold::loss
