/// Quantities that can't be mixed up: a number that knows what kind of thing it measures.
///
/// A Quantity holds one double in the SI (or SI-accepted) unit of its kind; two kinds don't add, compare or convert.
/// Use it at the door (reading, printing); inside, a formula takes doubles whose names say the unit (`length_m`).
/// Costs nothing over a double.
#pragma once

#include <compare>
#include <string_view>

namespace soilhold::units {

/// What a number measures. The unit each kind is held in stands behind it.
enum class Kind {
    length,           ///< slope length, distance: m
    rain_depth,       ///< rain: mm
    small_length,     ///< clod size, aggregate diameter, roughness, sampling depth: mm
    steepness,        ///< rise over run: 1 (0.06 is 6 %)
    area,             ///< ha
    soil_loss,        ///< A and T: t/(ha yr)
    erosivity,        ///< R: MJ mm/(ha h yr)
    erodibility,      ///< K: t ha h/(ha MJ mm)
    bulk_density,     ///< t/m3, which is g/cm3
    share,            ///< a part of a whole: 1 (0.3 is 30 %)
    mass_per_area,    ///< residue, biomass on the ground: kg/ha
    mass_per_volume,  ///< roots and buried residue: kg/(ha mm)
    duration,         ///< s
    conductivity,     ///< saturated hydraulic conductivity: um/s
    temperature,      ///< degrees C
};

/// A number of one kind, in that kind's SI unit.
template <Kind K>
struct Quantity {
    double si = 0.0;
    auto operator<=>(const Quantity&) const = default;
};

using Length = Quantity<Kind::length>;
using RainDepth = Quantity<Kind::rain_depth>;
using SmallLength = Quantity<Kind::small_length>;
using Steepness = Quantity<Kind::steepness>;
using Area = Quantity<Kind::area>;
using SoilLoss = Quantity<Kind::soil_loss>;
using Erosivity = Quantity<Kind::erosivity>;
using Erodibility = Quantity<Kind::erodibility>;
using BulkDensity = Quantity<Kind::bulk_density>;
using Share = Quantity<Kind::share>;
using MassPerArea = Quantity<Kind::mass_per_area>;
using Duration = Quantity<Kind::duration>;
using Conductivity = Quantity<Kind::conductivity>;
using Temperature = Quantity<Kind::temperature>;

/// "slope length", "erosivity": the kind in the words of a message.
std::string_view name_of(Kind kind);

}  // namespace soilhold::units
