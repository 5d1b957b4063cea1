/// Printing quantities the way people of either system write them, with the figures of meaning an estimate deserves.
#pragma once

#include <string>

#include "units/quantity.h"
#include "units/unit.h"

namespace soilhold::units {

/// `value` with so many significant figures, never in exponent form: 21.8 -> "22" (2), 0.0487 -> "0.049" (2), 870 ->
/// "870".
std::string figures(double value, int significant);

/// The SI value in the printed unit of a system: the number only.
double in_unit(Kind kind, double si, System system);

/// "200 ft", "61 m", "6 %", "175 US": number and unit, `significant` figures.
std::string print(Kind kind, double si, System system, int significant = 3);

template <Kind K>
std::string print(Quantity<K> quantity, System system, int significant = 3) {
    return print(K, quantity.si, system, significant);
}

}  // namespace soilhold::units
