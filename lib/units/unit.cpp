#include "units/unit.h"

#include <array>

namespace soilhold::units {

namespace {

constexpr double day_s = 86400.0;

constexpr auto table = std::to_array<Unit>({
    {"ft", Kind::length, metre_per_foot, 0, System::us, true},
    {"foot", Kind::length, metre_per_foot, 0, System::us, false},
    {"feet", Kind::length, metre_per_foot, 0, System::us, false},
    {"'", Kind::length, metre_per_foot, 0, System::us, false},
    {"yd", Kind::length, 3 * metre_per_foot, 0, System::us, false},
    {"m", Kind::length, 1, 0, System::metric, true},
    {"metre", Kind::length, 1, 0, System::metric, false},
    {"metres", Kind::length, 1, 0, System::metric, false},
    {"meter", Kind::length, 1, 0, System::metric, false},
    {"meters", Kind::length, 1, 0, System::metric, false},
    {"km", Kind::length, 1000, 0, System::metric, false},

    {"in", Kind::rain_depth, 25.4, 0, System::us, true},
    {"inch", Kind::rain_depth, 25.4, 0, System::us, false},
    {"inches", Kind::rain_depth, 25.4, 0, System::us, false},
    {"mm", Kind::rain_depth, 1, 0, System::metric, true},
    {"cm", Kind::rain_depth, 10, 0, System::metric, false},

    {"in", Kind::small_length, 25.4, 0, System::us, true},
    {"inch", Kind::small_length, 25.4, 0, System::us, false},
    {"inches", Kind::small_length, 25.4, 0, System::us, false},
    {"ft", Kind::small_length, 304.8, 0, System::us, false},
    {"mm", Kind::small_length, 1, 0, System::metric, true},
    {"cm", Kind::small_length, 10, 0, System::metric, false},
    {"m", Kind::small_length, 1000, 0, System::metric, false},

    {"%", Kind::steepness, 0.01, 0, System::both, true},
    {"percent", Kind::steepness, 0.01, 0, System::both, false},
    // degrees are no factor: units/reading.cpp takes the tangent.

    {"ac", Kind::area, hectare_per_acre, 0, System::us, true},
    {"acre", Kind::area, hectare_per_acre, 0, System::us, false},
    {"acres", Kind::area, hectare_per_acre, 0, System::us, false},
    {"ha", Kind::area, 1, 0, System::metric, true},
    {"hectare", Kind::area, 1, 0, System::metric, false},
    {"hectares", Kind::area, 1, 0, System::metric, false},
    {"km2", Kind::area, 100, 0, System::metric, false},
    {"mi2", Kind::area, 640 * hectare_per_acre, 0, System::us, false},
    {"sq mi", Kind::area, 640 * hectare_per_acre, 0, System::us, false},

    {"t/ac/yr", Kind::soil_loss, t_ha_per_ton_acre, 0, System::us, true},
    {"t/ac", Kind::soil_loss, t_ha_per_ton_acre, 0, System::us, false},
    {"ton/ac/yr", Kind::soil_loss, t_ha_per_ton_acre, 0, System::us, false},
    {"tons/ac/yr", Kind::soil_loss, t_ha_per_ton_acre, 0, System::us, false},
    {"tons/acre/yr", Kind::soil_loss, t_ha_per_ton_acre, 0, System::us, false},
    {"lb/ac/yr", Kind::soil_loss, kg_ha_per_lb_acre / 1000, 0, System::us, false},
    {"t/ha/yr", Kind::soil_loss, 1, 0, System::metric, true},
    {"t/ha", Kind::soil_loss, 1, 0, System::metric, false},
    {"t/(ha yr)", Kind::soil_loss, 1, 0, System::metric, false},
    {"Mg/ha/yr", Kind::soil_loss, 1, 0, System::metric, false},
    {"kg/ha/yr", Kind::soil_loss, 0.001, 0, System::metric, false},

    {"US", Kind::erosivity, erosivity_si_per_us, 0, System::us, true},
    {"SI", Kind::erosivity, 1, 0, System::metric, true},
    {"N/h", Kind::erosivity, 10, 0, System::metric, false},

    {"US", Kind::erodibility, erodibility_si_per_us, 0, System::us, true},
    {"SI", Kind::erodibility, 1, 0, System::metric, true},
    {"t h/(ha N)", Kind::erodibility, 0.1, 0, System::metric, false},

    {"g/cm3", Kind::bulk_density, 1, 0, System::both, true},
    {"g/cc", Kind::bulk_density, 1, 0, System::both, false},
    {"t/m3", Kind::bulk_density, 1, 0, System::both, false},
    {"Mg/m3", Kind::bulk_density, 1, 0, System::both, false},
    {"kg/m3", Kind::bulk_density, 0.001, 0, System::both, false},
    {"lb/ft3", Kind::bulk_density, kilogram_per_pound / (metre_per_foot * metre_per_foot * metre_per_foot) / 1000, 0,
     System::us, false},

    {"%", Kind::share, 0.01, 0, System::both, true},
    {"percent", Kind::share, 0.01, 0, System::both, false},

    {"lb/ac", Kind::mass_per_area, kg_ha_per_lb_acre, 0, System::us, true},
    {"lb/acre", Kind::mass_per_area, kg_ha_per_lb_acre, 0, System::us, false},
    {"t/ac", Kind::mass_per_area, 1000 * t_ha_per_ton_acre, 0, System::us, false},
    {"ton/ac", Kind::mass_per_area, 1000 * t_ha_per_ton_acre, 0, System::us, false},
    {"tons/ac", Kind::mass_per_area, 1000 * t_ha_per_ton_acre, 0, System::us, false},
    {"tons/acre", Kind::mass_per_area, 1000 * t_ha_per_ton_acre, 0, System::us, false},
    {"kg/ha", Kind::mass_per_area, 1, 0, System::metric, true},
    {"t/ha", Kind::mass_per_area, 1000, 0, System::metric, false},

    {"lb/ac/in", Kind::mass_per_volume, kg_ha_per_lb_acre / 25.4, 0, System::us, true},
    {"kg/ha/mm", Kind::mass_per_volume, 1, 0, System::metric, true},

    {"days", Kind::duration, day_s, 0, System::both, true},
    {"day", Kind::duration, day_s, 0, System::both, false},
    {"d", Kind::duration, day_s, 0, System::both, false},
    {"weeks", Kind::duration, 7 * day_s, 0, System::both, false},
    {"week", Kind::duration, 7 * day_s, 0, System::both, false},
    {"months", Kind::duration, 30.4375 * day_s, 0, System::both, false},
    {"years", Kind::duration, 365.25 * day_s, 0, System::both, false},
    {"year", Kind::duration, 365.25 * day_s, 0, System::both, false},
    {"h", Kind::duration, 3600, 0, System::both, false},
    {"hours", Kind::duration, 3600, 0, System::both, false},
    {"hour", Kind::duration, 3600, 0, System::both, false},
    {"min", Kind::duration, 60, 0, System::both, false},
    {"minutes", Kind::duration, 60, 0, System::both, false},
    {"minute", Kind::duration, 60, 0, System::both, false},
    {"s", Kind::duration, 1, 0, System::both, false},
    {"seconds", Kind::duration, 1, 0, System::both, false},

    {"in/h", Kind::conductivity, 25400.0 / 3600.0, 0, System::us, true},
    {"in/hr", Kind::conductivity, 25400.0 / 3600.0, 0, System::us, false},
    {"um/s", Kind::conductivity, 1, 0, System::metric, true},
    {"mm/h", Kind::conductivity, 1000.0 / 3600.0, 0, System::metric, false},
    {"cm/h", Kind::conductivity, 10000.0 / 3600.0, 0, System::metric, false},

    {"F", Kind::temperature, 5.0 / 9.0, -32.0 * 5.0 / 9.0, System::us, true},
    {"C", Kind::temperature, 1, 0, System::metric, true},
});

}  // namespace

std::span<const Unit> all_units() { return table; }

const Unit* find_unit(Kind kind, std::string_view symbol) {
    for (const Unit& unit : table)
        if (unit.kind == kind && unit.symbol == symbol) return &unit;
    return nullptr;
}

const Unit& printed_unit(Kind kind, System system) {
    const Unit* found = nullptr;
    for (const Unit& unit : table)
        if (unit.kind == kind && unit.printed && (unit.system == system || unit.system == System::both)) found = &unit;
    return found ? *found : table.front();
}

std::string_view name_of(Kind kind) {
    switch (kind) {
        case Kind::length:
            return "length";
        case Kind::rain_depth:
            return "rain";
        case Kind::small_length:
            return "size";
        case Kind::steepness:
            return "steepness";
        case Kind::area:
            return "area";
        case Kind::soil_loss:
            return "soil loss";
        case Kind::erosivity:
            return "erosivity";
        case Kind::erodibility:
            return "erodibility";
        case Kind::bulk_density:
            return "bulk density";
        case Kind::share:
            return "share";
        case Kind::mass_per_area:
            return "mass per area";
        case Kind::mass_per_volume:
            return "mass per area and depth";
        case Kind::duration:
            return "time";
        case Kind::conductivity:
            return "conductivity";
        case Kind::temperature:
            return "temperature";
    }
    return "quantity";
}

}  // namespace soilhold::units
