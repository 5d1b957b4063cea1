/// A figure with its unit as a field file states it: `200 ft`, or at length
/// `{value: 200 ft, spread: 150 to 260 ft, from: paced, confirmed: yes}`.
///
/// spread: `12 %` (plus or minus a share of the value), `150 to 260 ft` (a range) or `20 ft` (plus or minus). Of a
/// steepness a bare `1 %` could be a share of it or points of slope, so it is refused: `1 point`, `12 % of the value`
/// and a range are clear.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "input/section.h"
#include "spread/uncertain.h"
#include "units/reading.h"

namespace soilhold::input {

struct Figure {
    spread::Stated stated;   ///< SI; shares as 0..1
    units::Reading reading;  ///< as written; without unit for a bare number
    Position at;             ///< of the number
    bool confirmed = false;  ///< `confirmed: yes` beside an unusual value
};

/// Whether a spread given beside the figure is used; otherwise it earns a note.
enum class SpreadUse { used, unused };

/// A figure with its unit; a mistake is noted and nothing returned when it can't be read.
std::optional<Figure> figure(const Section& section, std::string_view key, units::Kind kind,
                             SpreadUse use = SpreadUse::unused);

/// A figure without unit: C, P, a subfactor.
std::optional<Figure> bare_figure(const Section& section, std::string_view key, SpreadUse use = SpreadUse::unused);

/// A share in percent, 0 to 100 (others are mistakes).
std::optional<double> percent(const Section& section, std::string_view key);

/// A list of figures of one kind, or one alone.
std::vector<double> figures_of(const Section& section, std::string_view key, units::Kind kind);

/// One scalar as a quantity; its unit may be missing, which is a mistake with both readings.
std::optional<units::Reading> quantity(const Reader& reader, const Node& node, std::string_view key, units::Kind kind);

/// Adds the range that `spread` says to a figure. `kind` is none for a bare figure.
void add_spread(const Reader& reader, const Node& spread, std::string_view key, std::optional<units::Kind> kind,
                Figure& figure);

}  // namespace soilhold::input
