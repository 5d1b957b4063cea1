/// What follows from a field's loss: how long a layer lasts, how fast the bare land would erode, what goes with the
/// soil, and how much of it may reach the water.
///
/// Each is a planning figure with a source of its own. The index grades the land and not its use: it is no
/// determination. The relations of delivery were fitted to basins and differ among themselves; none is preferred.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "source/step.h"
#include "spread/interval.h"

namespace soilhold::loss {

struct Field;
struct FieldInputs;

/// What reaches a point downstream by one published relation.
struct Delivered {
    source::Origin relation;
    double ratio = 0.0;     ///< 0..1 of what leaves the field
    spread::Interval loss;  ///< t/(ha yr) of the field's ground
};

struct Consequences {
    spread::Interval years_per_cm;               ///< how many years a centimetre of soil lasts; low is the fastest
    std::optional<double> erodibility_index;     ///< R K LS / T of the slope as it lies, [1]; none without T
    double nitrogen_kg_ha = 0.0;                 ///< kg/(ha yr)
    double phosphorus_kg_ha = 0.0;               ///< kg/(ha yr)
    std::optional<double> organic_matter_kg_ha;  ///< kg/(ha yr), where the soil's organic matter is known
    std::vector<Delivered> delivered;            ///< one a relation; empty unless a drainage area was given
    source::Steps steps;
};

/// @param loss     on the slope, t/(ha yr)
/// @param leaving  t/(ha yr) that leaves the field: the loss itself where nothing catches it
/// @param bulk_density  t/m3
Consequences consequences_of(const Field& field, const FieldInputs& inputs, const spread::Interval& loss,
                             const spread::Interval& leaving, double bulk_density);

}  // namespace soilhold::loss
