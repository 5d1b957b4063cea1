/// Cover and management C [1]: given, from the parts of Handbook 703 as an average of the year, or from a table.
#pragma once

#include <optional>

#include "factors/cover_tables.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// The parts, each as the average of the year. What is left out counts as the unit plot's (subfactor 1).
struct CoverParts {
    std::optional<double> surface_cover_fraction;  ///< residue, stones and living cover on the ground, 0..1
    double residue_effectiveness_b = 0.035;        ///< per % cover; 0.035 usual cropland
    std::optional<double> canopy_fraction;         ///< 0..1
    std::optional<double> fall_height_m;           ///< drop fall height under the canopy, needed with it
    std::optional<double> roughness_mm;            ///< random roughness; 6.1 mm is the unit plot's
    std::optional<double> prior_land_use;          ///< PLU given, 0..1
    std::optional<double> years_undisturbed;       ///< gives the consolidation part of PLU, 0..7 and more
    source::Origin origin;
};

struct CoverDescription {
    std::optional<spread::Stated> factor;  ///< C given
    std::optional<CoverParts> parts;
    std::optional<CoverOfTable> table{};
    /// A C built from cover parts alone, without prior land use, leaves structure to the tests (cover-only counting).
    bool holds_prior_land_use() const {
        return factor.has_value() || (parts && (parts->prior_land_use || parts->years_undisturbed)) ||
               (table && factors::holds_prior_land_use(*table));
    }
};

/// C of a year; from parts at least 0.0001, with a remark.
/// @throws std::invalid_argument when nothing is set, for shares outside 0..1, a canopy without its fall height, or
///         where cover_of_table() does; mulch needs the slope that it lies on
spread::Uncertain cover_management(const CoverDescription& cover, const std::optional<GroundSlope>& slope = {});

/// On a slope. @param gradient  rise over run
inline spread::Uncertain cover_management(const CoverDescription& cover, double gradient, double length_m) {
    return cover_management(cover, GroundSlope{gradient, length_m});
}

}  // namespace soilhold::factors
