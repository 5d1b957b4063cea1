/// The annual loss of one field: A = R K m LS C P with its interval, and the same under each change of practice.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "loss/consequences.h"
#include "loss/field.h"
#include "rotation/rotation_cover.h"
#include "soiltest/summary.h"
#include "source/step.h"
#include "spread/interval.h"
#include "structure/structure_factor.h"

namespace soilhold::loss {

/// One factor as it entered the product. The interval is central 80 %, as everything that is printed.
struct FactorValue {
    std::string symbol;  ///< "R", "K", "m", "LS", "C", "P"
    std::string unit;    ///< SI: "MJ mm/(ha h yr)", "t ha h/(ha MJ mm)", "1"
    spread::Interval value;
    source::Origin origin;
    source::Origin spread_origin;
    std::vector<source::Remark> remarks;
    source::Steps steps{};  ///< how the value and its interval came about
};

/// What share of the loss on the slope leaves the field, where terraces or strips catch the rest.
struct Leaving {
    FactorValue share;      ///< "passes", 0..1
    spread::Interval loss;  ///< t/(ha yr) that leaves
};

/// One part of a slope that bends.
struct SlopePartLoss {
    double length_m = 0.0;
    double gradient = 0.0;  ///< rise over run
    double LS = 0.0;        ///< of its own ground
    spread::Interval loss;  ///< t/(ha yr) on its own ground
    double share = 0.0;     ///< of the slope's tons, 0..1
};

/// The loss after a change, beside 'as now'.
struct ChangeResult {
    std::string name;
    std::string note;
    FactorValue LS, C, P;
    spread::Interval loss;   ///< t/(ha yr)
    spread::Interval ratio;  ///< changed over as-now
    spread::Interval saved;  ///< as-now minus changed, t/(ha yr)
    std::optional<Leaving> leaving;
    std::optional<rotation::RotationCover> calendar;  ///< where C is worked through a rotation
    bool changes_length = false, changes_cover = false, changes_practice = false;
    source::Remarks remarks;
    source::Steps steps;  ///< from the factors to the loss and what is saved
};

/// How much of the doubt of ln A one input carries.
struct DoubtShare {
    std::string input;   ///< "slope length", "cover factor C", ...
    double share = 0.0;  ///< 0..1, of the variance of ln A
};

struct FieldEstimate {
    Field field;
    std::vector<FactorValue> factors;     ///< R, K, m, LS, C, P in this order
    std::string slope_method;             ///< "Handbook 703, moderate rill ratio"
    spread::Interval loss;                ///< t/(ha yr)
    spread::Interval loss_without_tests;  ///< t/(ha yr), m = 1
    std::optional<double> tolerance;      ///< T, t/(ha yr)
    std::optional<double> loss_over_tolerance;
    std::optional<spread::Interval> total;  ///< t/yr over the field's area
    double bulk_density = 0.0;              ///< t/m3 used for depth
    source::Origin bulk_density_origin;
    spread::Interval depth_mm_per_year;
    std::optional<double> largest_cover_times_practice;  ///< C P that would meet T; none without T
    std::optional<Leaving> leaving;
    std::vector<SlopePartLoss> slope_parts;           ///< from the top down; empty for an even slope
    std::optional<rotation::RotationCover> calendar;  ///< where C is worked through a rotation
    Consequences consequences;  ///< what follows from the loss: index, depth in years, what goes with it
    soiltest::Summary tests;
    structure::StructureFactor structure;
    std::vector<ChangeResult> changes;
    std::vector<DoubtShare> doubt;  ///< largest first
    source::Steps steps;            ///< from the factors to the loss, times T, tons and depth
    source::Remarks remarks;        ///< everything to say about this field, in order of weight
    const FactorValue& factor(const std::string& symbol) const;
};

struct DrawSettings {
    std::size_t draws = 8192;
    std::uint64_t seed = 1;
};

}  // namespace soilhold::loss
