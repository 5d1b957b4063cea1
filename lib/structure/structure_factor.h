/// The structure factor m of A = R K m LS C P: what the soil tests say about aggregate stability, relative to the
/// stability that K and C already assume. 1 when nothing was measured.
///
/// Each test is put on one scale W (% of soil stable > 0.25 mm after fast wetting); three published links turn the
/// distance of W from the expected W_ref into a multiplier; they are pooled, and shrunk towards 1 by how sure they are.
/// A change of structure that C already credits must not count twice: in `credited` mode the expectation W_ref is that
/// of the management which C credits; in `cover_only` mode (C built from cover terms alone, prior land use = 1) it is
/// that of tilled ground, m then stands in for the prior-land-use subfactor and never falls below 0.45.
/// Parameters that are this project's assumptions stand in data/reference/structure-parameters.csv with that word.
/// @source links: nomograph of Wischmeier, Johnson & Cross 1971; El-Swaify & Dangler 1976; Yan et al. 2008 (all from
///         memory); pooling, shrinkage and every parameter marked so: our assumption
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "soiltest/summary.h"
#include "source/remark.h"
#include "source/step.h"

namespace soilhold::structure {

/// What kind of management the C factor already gives credit for.
enum class Credited { tilled, reduced, no_till };

enum class CountingMode { credited, cover_only };

/// Clay and organic matter say how stable the soil should be; a tested reference makes them unnecessary.
struct Soil {
    std::optional<double> clay_pct;
    std::optional<double> organic_matter_pct;  ///< the one K was worked out with
    double erodibility_us = 0.0;               ///< K, US units
    std::string texture_class;
};

/// A reference that was tested itself: same soil, long managed as C assumes.
struct LocalReference {
    double water_stable_pct = 0.0;
};

struct Assessment {
    double W = 0.0;             ///< % stable > 0.25 mm, from the tests
    double W_own_sd = 0.0;      ///< of this field's own measurement
    double W_ref = 0.0;         ///< expected
    double shared_sd = 0.0;     ///< of reference and crosswalk, shared by fields of one soil
    double reference_sd = 0.0;  ///< of W_ref alone
    bool local_reference = false;
    double m_nomograph = 1.0;                     ///< link A
    std::optional<double> m_unstable_fraction;    ///< link B; none below K 0.15 US
    double m_interrill = 1.0;                     ///< link C
    double m_pooled = 1.0;                        ///< before shrinkage
    double log_sd = 0.0;                          ///< s of ln m before shrinkage
    double shrinkage = 0.0;                       ///< lambda
    double m = 1.0;                               ///< after shrinkage, clamped to 0.45 .. 2.0
    double posterior_log_sd = 0.0;                ///< sqrt(lambda) s
    double low_80 = 1.0, high_80 = 1.0;           ///< central 80 %
    double low_90 = 1.0, high_90 = 1.0;           ///< central 90 %
    std::vector<double> log_links;                ///< ln of each link in use
    double slope = 0.0;                           ///< d ln m_pooled / dW
    double log_m_below = 0.0, log_m_above = 0.0;  ///< ln m_pooled half a point of W below and above, for the slope
    Credited credited = Credited::tilled;
    CountingMode mode = CountingMode::credited;
    std::optional<double> rest_share{};  ///< of a calendar of cover; rules in place of `credited`
};

/// m of one field, or why there is none.
struct StructureFactor {
    std::optional<Assessment> assessment;  ///< none: m = 1
    std::string why_not;                   ///< the reason when none: "nothing was measured", "clods floated", ...
    source::Remarks remarks;
    source::Steps steps;  ///< from the tests to m; none where m is not applied
    double m() const { return assessment ? assessment->m : 1.0; }
};

/// @param rest_share  0..1: how much of what rest does to a soil a calendar of cover has put into C already
/// @throws std::invalid_argument when K is not above 0, or a percentage lies outside 0..100
StructureFactor structure_factor(const soiltest::Summary& tests, const Soil& soil, Credited credited, CountingMode mode,
                                 const std::optional<LocalReference>& reference, std::optional<double> rest_share = {});

/// What structure alone makes of a pair of fields on one soil, second over first: reference, crosswalk and season
/// cancel. When C credits the two differently, the doubt of the management offset (sd 8) does not cancel and is added;
/// nor does that of two references that are not one and the same.
struct StructureRatio {
    double pooled = 1.0;
    double ratio = 1.0;   ///< shrunk
    double log_sd = 0.0;  ///< before shrinkage
    double shrinkage = 0.0;
    double posterior_log_sd = 0.0;
    double low_90 = 1.0, high_90 = 1.0;
    double link_spread = 0.0;  ///< of the links' ln ratios, at least the floor
    double unshared_sd = 0.0;  ///< of ln: the part of the expectations' doubt that does not cancel
    source::Steps steps;
};

/// The clamp of m, from data/reference/structure-parameters.csv (0.45 and 2.0).
double least_m();
double most_m();

StructureRatio structure_ratio(const Assessment& first, const Assessment& second);

}  // namespace soilhold::structure
