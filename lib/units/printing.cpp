#include "units/printing.h"

#include <fmt/format.h>

#include <cmath>

namespace soilhold::units {

std::string figures(double value, int significant) {
    if (value == 0.0) return "0";
    if (!std::isfinite(value)) return "-";
    const double magnitude = std::floor(std::log10(std::fabs(value)));
    // Round first: 9.96 with two figures is 10, not 10.0.
    const double scale = std::pow(10.0, significant - 1 - magnitude);
    const double rounded = std::round(value * scale) / scale;
    const double rounded_magnitude = std::floor(std::log10(std::fabs(rounded)) + 1e-12);
    const int decimals = std::max(0, static_cast<int>(significant - 1 - rounded_magnitude));
    return fmt::format("{:.{}f}", rounded, decimals);
}

double in_unit(Kind kind, double si, System system) {
    const Unit& unit = printed_unit(kind, system);
    return (si - unit.offset) / unit.factor;
}

std::string print(Kind kind, double si, System system, int significant) {
    const Unit& unit = printed_unit(kind, system);
    return fmt::format("{} {}", figures(in_unit(kind, si, system), significant), unit.symbol);
}

}  // namespace soilhold::units
