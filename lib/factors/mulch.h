/// C of mulch on construction slopes, with the slope length to which it holds; C of other covers of building sites.
///
/// Beyond its limit the mulch is undercut and its C no longer holds: the limit is part of the answer.
/// @source AH 537 (1978) Table 9 (from memory): data/reference/construction-mulch.csv. Lists of a state stormwater
///         manual and of Goldman et al. 1986, read in reprints: site-covers.csv
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "factors/slope_class.h"
#include "source/citation.h"

namespace soilhold::factors {

struct MulchCover {
    double C = 1.0;
    std::optional<double> length_limit_m;  ///< none where there is no mulch
    std::string slope_class{};             ///< "6-10", of the row, in %
    source::Origin origin{};               ///< of the row
};

/// Each mulch of the table once: "straw or hay tied", "crushed stone", "wood chips".
std::vector<std::string> mulch_materials();

/// The rates of a mulch in tons/acre, rising; none for a mulch the table lacks.
std::vector<double> mulch_rates(std::string_view mulch);

/// From which steepness to which the table holds a mulch at a rate, in per cent.
ClassLimits mulch_slopes(std::string_view mulch, double tons_per_acre);

/// @param mulch           "none", "straw or hay tied", "crushed stone", "wood chips"
/// @param tons_per_acre   a rate the table has
/// @param slope           in per cent
/// @throws std::invalid_argument where the table has no such row
MulchCover construction_mulch(std::string_view mulch, double tons_per_acre, ClassLimits slope);

/// The covers of a list of building sites, in its order; none for a list that is not at hand.
std::vector<std::string> site_covers(std::string_view by);

/// C of a cover of building sites. @param by  "pollution control agency" or "goldman"
/// @throws std::invalid_argument for a cover the list lacks
double site_cover_factor(std::string_view by, std::string_view cover);

/// Whose list that is. @throws as site_cover_factor
source::Origin site_cover_origin(std::string_view by, std::string_view cover);

/// b of exp(-b cover%) by length of plot, 0.022 + 0.0017 x length m: mean line of 41 studies whose own b run from
/// 0.0097 to 0.132 (Smets et al. 2008, read in the abstract; R2 0.37).
double mulch_effectiveness_b(double plot_length_m);

}  // namespace soilhold::factors
