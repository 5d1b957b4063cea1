/// Every unit that soilhold reads and prints, with its exact factor.
///
/// The factors are definitions, not measurements: the international foot (0.3048 m), the acre of 43 560 square feet,
/// the avoirdupois pound (0.453 592 37 kg), standard gravity 9.806 65 m/s2 for the ton-force of R and K.
/// @source NIST SP 811 (2008) app. B for the base factors (from memory); R, K and A follow from the definition of the
///         US units of the soil-loss equation and agree with Foster, McCool, Renard & Moldenhauer 1981, J. Soil Water
///         Conserv. 36:355-359 (17.02, 0.1317, 2.242; from memory).
#pragma once

#include <span>
#include <string_view>

#include "units/quantity.h"

namespace soilhold::units {

enum class System { us, metric, both };  ///< both: where a unit belongs to either ("%", "days")

/// One unit: its spelling, its kind, and SI value = written value x factor + offset.
struct Unit {
    std::string_view symbol;
    Kind kind;
    double factor;
    double offset;
    System system;
    bool printed;  ///< the unit that this system prints for the kind
};

/// All spellings, the printed one of each kind and system first among its synonyms.
std::span<const Unit> all_units();

/// The unit of this kind with this spelling (case counts only where it must), or nullptr.
const Unit* find_unit(Kind kind, std::string_view symbol);

/// The unit in which a system prints a kind; never nullptr.
const Unit& printed_unit(Kind kind, System system);

// The factors of the soil-loss equation, worked out from the definitions above.
inline constexpr double metre_per_foot = 0.3048;
inline constexpr double hectare_per_acre = 0.40468564224;
inline constexpr double tonne_per_short_ton = 0.90718474;
inline constexpr double kilogram_per_pound = 0.45359237;
/// J per foot-ton-force: 0.3048 m x 2000 lbf.
inline constexpr double joule_per_foot_ton_force = 0.3048 * 2000.0 * 0.45359237 * 9.80665;
/// t/ha per short ton/acre, about 2.2417.
inline constexpr double t_ha_per_ton_acre = tonne_per_short_ton / hectare_per_acre;
/// MJ/ha per foot-ton-force/acre, about 0.006701: storm energy.
inline constexpr double mj_ha_per_ft_tonf_acre = joule_per_foot_ton_force * 1e-6 / hectare_per_acre;
/// MJ mm/(ha h) per hundred foot-ton-force inch/(acre h), about 17.02: R and annual EI.
inline constexpr double erosivity_si_per_us = 100.0 * mj_ha_per_ft_tonf_acre * 25.4;
/// t ha h/(ha MJ mm) per ton acre h/(hundred acre ft tonf in), about 0.1317: K.
inline constexpr double erodibility_si_per_us = t_ha_per_ton_acre / erosivity_si_per_us;
/// kg/ha per lb/acre, about 1.1209.
inline constexpr double kg_ha_per_lb_acre = kilogram_per_pound / hectare_per_acre;

}  // namespace soilhold::units
