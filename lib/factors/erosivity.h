/// Rainfall erosivity R [MJ mm/(ha h yr)]: given, from annual or monthly rain, or from the record of a gauge.
#pragma once

#include <array>
#include <optional>

#include "factors/gauge_erosivity.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// What was written about the rain of a place. Exactly one of the four is set (the reader of the file sees to it).
struct RainDescription {
    std::optional<spread::Stated> erosivity;       ///< MJ mm/(ha h yr)
    std::optional<spread::Stated> annual_rain_mm;  ///< mean annual rain
    std::optional<std::array<double, 12>> monthly_rain_mm;
    source::Origin monthly_origin;
    std::optional<GaugeErosivity> gauge{};  ///< a record already summed up
};

/// R of a place, by the method its description allows. @throws std::invalid_argument when nothing is set.
spread::Uncertain erosivity(const RainDescription& rain);

}  // namespace soilhold::factors
