#include "factors/quantities.h"

// Erosivity: unit energy, conversions, R from rain totals.
#include <array>
#include <stdexcept>

#include "factors/rain_energy.h"
#include "factors/rain_erosivity.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

Quantity conversion(std::string name, std::string unit, double factor) {
    return {std::move(name), std::move(unit), {"definition?"}, [factor](const Inputs&) {
                return by_equation(factor, "unit-conversions");
            }};
}

const source::Remark unit_doubtful{source::Weight::caution, "erosivity-unit-doubtful",
                                   "This relation gives some twenty times the R of others; check the unit it was "
                                   "published in before using it."};

}  // namespace

std::vector<Quantity> rain_quantities() {
    const std::string us = "ft-tonf/(acre in)", si = "MJ/(ha mm)", R_si = "MJ mm/(ha h yr)";
    const std::string R_us = "100 ft-tonf in/(acre h yr)";
    return {
        {"unit_energy_ah537",
         us,
         {"i_in_per_h"},
         [](const Inputs& in) {
             return by_equation(unit_energy_537_us(in.not_negative("i_in_per_h")), "unit-energy-537");
         }},
        {"unit_energy_ah537_si",
         si,
         {"i_mm_per_h"},
         [](const Inputs& in) {
             return by_equation(unit_energy_537(in.not_negative("i_mm_per_h")), "unit-energy-537");
         }},
        {"unit_energy_brown_foster",
         si,
         {"i_mm_per_h"},
         [](const Inputs& in) {
             return by_equation(unit_energy_brown_foster(in.not_negative("i_mm_per_h")), "unit-energy-brown-foster");
         }},
        {"unit_energy_brown_foster_us",
         us,
         {"i_in_per_h"},
         [](const Inputs& in) {
             return by_equation(unit_energy_brown_foster_us(in.not_negative("i_in_per_h")), "unit-energy-brown-foster");
         }},
        conversion("R_us_to_si", R_si + " per " + R_us, units::erosivity_si_per_us),
        conversion("K_us_to_si", "t ha h/(ha MJ mm) per US unit", units::erodibility_si_per_us),
        conversion("A_us_to_si", "t/ha per ton/acre", units::t_ha_per_ton_acre),
        conversion("unit_energy_us_to_si", si + " per " + us, units::mj_ha_per_ft_tonf_acre / 25.4),
        conversion("storm_energy_us_to_si", "MJ/ha per ft-tonf/acre", units::mj_ha_per_ft_tonf_acre),
        conversion("EI_us_to_si", "MJ mm/(ha h) per ft-tonf in/(acre h)", units::erosivity_si_per_us / 100.0),
        conversion("intensity_us_to_si", "mm/h per in/h", 25.4),
        {"R_from_annual_rain",
         R_si,
         {"P_mm"},
         [](const Inputs& in) { return by_equation(erosivity_from_annual_rain(in.number("P_mm")), "rain-annual"); }},
        {"R_from_mod_fournier",
         R_si,
         {"F_mm"},
         [](const Inputs& in) {
             return by_equation(erosivity_from_fournier_index(in.number("F_mm")), "rain-monthly");
         }},
        {"mod_fournier_index",
         "mm",
         {"monthly_mm"},
         [](const Inputs& in) {
             const auto months = in.list("monthly_mm");
             if (months.size() != 12) throw std::invalid_argument("'monthly_mm' takes twelve months, January first");
             std::array<double, 12> rain{};
             for (std::size_t i = 0; i < 12; ++i) rain[i] = months[i];
             return by_equation(modified_fournier_index(rain), "fournier-index");
         }},
        {"R_rango_arnoldus",
         R_si,
         {"F_mm"},
         [](const Inputs& in) {
             return by_equation(erosivity_rango_arnoldus(in.number("F_mm")), "rango-arnoldus", {unit_doubtful});
         }},
        {"R_arnoldus_1980",
         R_si,
         {"F_mm"},
         [](const Inputs& in) { return by_equation(erosivity_arnoldus_1980(in.number("F_mm")), "arnoldus-1980"); }},
        {"P26_to_R",
         R_us,
         {"P_2yr_6h_in"},
         [](const Inputs& in) {
             return by_equation(erosivity_from_six_hour_rain_us(in.number("P_2yr_6h_in")), "rain-six-hour");
         }},
        reported_quantity("R_map_value", R_us, "place"),
    };
}

}  // namespace soilhold::factors
