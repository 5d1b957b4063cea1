/// Reading what people write: "200 ft", "6 %", "5 degrees", "175 US", "8,5 mm" (refused), "1,200 ft" (refused).
///
/// A number without a unit is an error that shows what it would mean in either system; nothing is guessed.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "units/quantity.h"
#include "units/unit.h"

namespace soilhold::units {

/// What was written can't be read as the quantity wanted. `what()` is a plain sentence without place; the reader of the
/// file adds file, line and column. `code` is stable: "no-unit", "unknown-unit", "wrong-kind", "not-a-number",
/// "comma", "not-finite", "range".
class ReadingError : public std::runtime_error {
  public:
    ReadingError(std::string code_, const std::string& text) : std::runtime_error(text), code(std::move(code_)) {}
    std::string code;
};

/// What was read: the SI value, and the number and unit as written.
struct Reading {
    double si = 0.0;
    double written = 0.0;
    const Unit* unit = nullptr;  ///< nullptr for degrees of slope
};

/// A number alone: decimal point, optional exponent; throws ReadingError on commas, "NA", nan and infinities.
double read_number(std::string_view text);

/// "200 ft" as the kind wanted. Steepness also takes "5 degrees" / "5 deg".
/// @throws ReadingError with both readings when the unit is missing.
Reading read(Kind kind, std::string_view text);

/// "6 to 8 mm", "0 to 2 in", "0.25 to 0.40", "15 % to 20 %": low and high, the unit once or twice.
std::pair<Reading, Reading> read_range(Kind kind, std::string_view text);

template <Kind K>
Quantity<K> read_as(std::string_view text) {
    return Quantity<K>{read(K, text).si};
}

/// "200 ft (61 m) or 200 m (656 ft)": a bare number in both systems, each with its conversion.
std::string both_readings(Kind kind, double number);

}  // namespace soilhold::units
