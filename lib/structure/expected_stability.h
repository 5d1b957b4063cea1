/// The expected stability W_ref [%]: what K and C already assume of this soil, from its clay, its organic matter and
/// the management that C credits; or a reference field that was tested itself.
///
/// W_ref = (table(clay) + table(OM)) / 2 + offset; offset -12 tilled, -6 reduced, 0 no-till or perennials (sd 8), the
/// sd of the whole 15. Expectations depend on method: for one soil other published forms give 30 to 42 where this gives
/// 72, so a tested reference (sd 5) is much better. Use the organic matter that K was worked out with.
/// @source table of suitable percentages: Soil Quality Test Kit Guide (from memory), data/reference/wsa-suitable.csv;
///         offsets and sds: our assumption
#pragma once

#include <optional>

#include "structure/knots.h"
#include "structure/structure_factor.h"

namespace soilhold::structure {

/// The table by clay in % and by organic matter in %: data/reference/wsa-suitable.csv.
const Knots& suitable_knots_by_clay();
const Knots& suitable_knots_by_organic_matter();

/// Suitable % of water-stable aggregates by clay alone, by organic matter alone. Outside the table its ends hold.
double suitable_by_clay(double clay_pct);
double suitable_by_organic_matter(double organic_matter_pct);

/// Offset of the management that C credits, % of W; cover-only counting always expects tilled ground.
/// A calendar of cover says by itself how much rest C credits: `rest_share` of the way from tilled to no-till.
double management_offset(Credited credited, CountingMode mode, std::optional<double> rest_share = {});

/// W_ref from the table. @throws std::invalid_argument unless both are within 0..100 %
double expected_stability(double clay_pct, double organic_matter_pct, Credited credited, CountingMode mode,
                          std::optional<double> rest_share = {});

}  // namespace soilhold::structure
