/// Predicted loss beside a record of measured loss, by the rules of docs/evidence.md.
#pragma once

#include <algorithm>
#include <string>

#include "factors/delivery.h"
#include "field/measured_rotation.h"
#include "loss/inputs.h"
#include "units/unit.h"

namespace soilhold::measured {

inline loss::Field field_of(const Line& record, const Line& place) {
    loss::Field field;
    field.name = record.at("id");
    field.texture_class = record.at("texture");
    field.rain.erosivity = assumed(number(record, "R_us") * units::erosivity_si_per_us);
    field.soil.erodibility = assumed(number(record, "K_us") * units::erodibility_si_per_us);
    field.slope.length_m = assumed(number(record, "length_m"));
    field.slope.gradient = assumed(number(record, "slope_pct") / 100);
    field.rotation = loss::RotationGiven{rotation_of(record), {}};
    rotation::ByMonth temperature{}, rain{};
    for (std::size_t month = 0; month < 12; ++month) {
        temperature[month] = number(place, "T" + std::to_string(month + 1) + "_C");
        rain[month] = number(place, "rain" + std::to_string(month + 1) + "_mm");
    }
    field.weather.month_temperature_C = temperature;
    field.weather.month_rain_mm = rain;
    field.practice.contouring = record.at("contoured") == "1";
    if (record.at("terraced") == "1") {
        factors::Terraces terraces;
        terraces.interval_m = field.slope.length_m;
        field.practice.terraces = terraces;
    }
    if (record.at("filter_strip") == "1") {
        factors::BufferStrips strips;
        strips.place = factors::BufferPlace::foot_of_the_slope;
        field.practice.buffers = strips;
    }
    return field;
}

/// t/(ha yr) at the gauge, and on the slope above whatever catches it.
struct Predicted {
    double at_gauge = 0, on_slope = 0;
    double C = 0;         ///< of the rotation, or of the year that was measured
    double by_class = 0;  ///< at the gauge with one C a tillage class in place of the calendar
    double desk = 0;      ///< one R a place, one C a tillage class, no practice, nothing caught
};

inline Predicted predicted(const Line& record, const Line& place) {
    const loss::FieldInputs inputs = loss::inputs_of(field_of(record, place));
    const double all_years = inputs.now.C.central;
    Predicted result;
    result.C = all_years;
    if (const auto year = static_cast<std::size_t>(number(record, "rotation_year")); year > 0)
        result.C = inputs.now.calendar->calendar.C_of_year.at(year - 1);
    result.on_slope = loss::central_loss(inputs, inputs.now) * result.C / all_years;
    double leaves = inputs.now.leaving ? inputs.now.leaving->central : 1.0;
    if (const double area_ha = number(record, "delivery_area_ha"); area_ha > 0)
        leaves *= std::min(1.0, factors::delivery_ratio_vanoni(area_ha / 100));
    result.at_gauge = result.on_slope * leaves;
    const std::string& tillage = record.at("class");
    const double C = tillage == "conventional" ? 0.35 : tillage == "conservation" ? 0.18 : 0.06;
    result.by_class = result.at_gauge * C / result.C;
    const double R_of_place = number(place, "R_us") * units::erosivity_si_per_us;
    result.desk = R_of_place * inputs.K.central * loss::central_slope_factor(inputs, inputs.now) * C;
    return result;
}

}  // namespace soilhold::measured
