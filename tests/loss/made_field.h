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

using Spots = std::vector<std::vector<int>>;
/// The worked example of the structure factor: six spots of three clods.
inline const Spots fell_apart = {{2, 1, 2}, {3, 2, 2}, {1, 2, 3}, {2, 4, 2}, {3, 2, 1}, {2, 2, 3}};
inline const Spots held = {{5, 6, 5}, {6, 5, 4}, {5, 5, 6}, {4, 6, 5}, {6, 6, 5}, {5, 4, 5}};

/// The field with soak tests handled alike, one row of classes a spot.
inline Field tested(Field field, const Spots& spots) {
    auto& handling = field.tests.handling;
    handling.date = std::chrono::year(2026) / 4 / 8;
    handling.drying_days = 4;
    handling.clod_least_mm = 6;
    handling.clod_most_mm = 8;
    handling.depth_top_mm = 0;
    handling.depth_bottom_mm = 50.8;
    handling.water = "rain water";
    handling.scorer = "one";
    for (const auto& spot : spots) {
        soiltest::Spot made;
        for (const int one : spot) made.clods.push_back({one});
        field.tests.slake_spots.push_back(made);
    }
    return field;
}

}  // namespace soilhold::loss
