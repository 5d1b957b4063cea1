/// Units of length as raster files spell them, and what a file says about the unit of its heights.
#pragma once

#include <optional>
#include <string>

#include "raster/placement.h"

namespace soilhold::raster {

struct LengthUnit {
    double metres = 1;  ///< metres in one
    std::string name;   ///< "metres", "feet", "US survey feet"
};

/// "m", "metre", "ft", "US survey foot", "ftUS", "cm" ... in any case. The US survey foot is 1200/3937 m, the
/// international one 0.3048 m, both by definition. Nothing for an unknown word.
std::optional<LengthUnit> length_unit(const std::string& text);

/// The unit of the vertical part of a compound coordinate system, if it has one.
std::optional<LengthUnit> vertical_unit(const Placement& placement);

}  // namespace soilhold::raster
