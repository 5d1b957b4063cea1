/// C of a year from the published tables: pasture and range, woodland, mulch on building slopes, site covers,
/// cropstages.
///
/// Each way says which rows were used and with what standing. Tables of land that lies undisturbed for years count what
/// that did to the soil; those of fresh ground, bare but for its mulch, don't.
/// @source the headers of pasture_range.h, woodland.h, mulch.h and cropstage.h
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "factors/pasture_range.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// Permanent pasture, range and idle land. Canopy and fall height take the nearest line of the table, with a remark.
struct PastureCover {
    double canopy_pct = 0.0;     ///< 0 without canopy; lines at 25, 50 and 75 %, up to 87.5 %
    double fall_height_m = 0.0;  ///< needed with a canopy; lines at 0.5, 2 and 4 m, up to 5 m
    GroundCover ground = GroundCover::grass;
    double ground_cover_pct = 0.0;            ///< 0 to 100
    bool print_of_1978 = true;                ///< or an earlier copy
    std::optional<double> years_undisturbed;  ///< below 7 earns a caution
    source::Origin origin;
};

/// Woodland that is neither grazed nor burnt nor newly logged.
struct WoodlandCover {
    double canopy_pct = 0.0;
    double duff_pct = 0.0;
    bool reprint = false;  ///< one value a row, from a reprint; the handbook's table has a range
    source::Origin origin;
};

/// Mulch on a building slope; it holds up to a length of slope.
struct MulchOnSlope {
    std::string material;        ///< a word of mulch_materials()
    double tons_per_acre = 0.0;  ///< a rate the table has, within 1 %
    source::Origin origin;
};

struct SiteCover {
    std::string by, cover;  ///< as site_cover_factor() takes them
    source::Origin origin;
};

/// A stage of the cropping year: its soil-loss ratio as given, or by line of the handbook's table.
struct StageOfYear {
    std::string stage;            ///< "SB"; with a ratio any name
    std::optional<double> ratio;  ///< fraction
    std::optional<int> line;
    double erosivity_share = 0.0;  ///< of the year's R, 0..1
};

struct StagedCover {
    std::vector<StageOfYear> stages;
    source::Origin origin;
};

using CoverOfTable = std::variant<PastureCover, WoodlandCover, MulchOnSlope, SiteCover, StagedCover>;

/// The slope that a cover lies on.
struct GroundSlope {
    double gradient = 0.0;  ///< rise over run
    double length_m = 0.0;
};

/// Whether C counts what years without tillage, or the farming, did to the soil.
bool holds_prior_land_use(const CoverOfTable& cover);

/// C with its rows as steps. @param slope  mulch needs it
/// @throws std::invalid_argument where the table has no row, saying what it has; for mulch without its slope or beyond
///         its length; for stages whose shares of erosivity do not sum to 1 within 0.005
spread::Uncertain cover_of_table(const CoverOfTable& cover, const std::optional<GroundSlope>& slope);

}  // namespace soilhold::factors
