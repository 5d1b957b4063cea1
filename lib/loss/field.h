/// One field as its file describes it: everything an estimate needs, in SI, with whose figure each value is.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "factors/cover.h"
#include "factors/erodibility.h"
#include "factors/erosivity.h"
#include "factors/practice.h"
#include "factors/slope.h"
#include "rotation/climate.h"
#include "rotation/edits.h"
#include "rotation/rotation.h"
#include "soiltest/record.h"
#include "structure/structure_factor.h"

namespace soilhold::loss {

/// A rotation as the farmer tells it, and a reading of residue that sets its calendar.
struct RotationGiven {
    rotation::Rotation rotation;
    std::optional<rotation::TransectReading> reading;
};

/// What a change of practice changes; what is left out stays as now.
struct Change {
    std::string name;
    std::optional<factors::CoverDescription> cover;
    std::optional<rotation::Edited> rotation;  ///< the field's rotation with its calendar changed
    std::optional<factors::PracticeDescription> practice;
    std::optional<spread::Stated> length_m;  ///< barriers shorten it; terraces do it as a practice
    std::string note;                        ///< what it costs or does not fix, in the specialist's words
};

struct Field {
    std::string name;
    std::string farm;
    std::string map_unit, soil_name, texture_class;
    factors::RainDescription rain;
    factors::SoilDescription soil;
    factors::SlopeDescription slope;
    factors::CoverDescription cover;
    std::optional<RotationGiven> rotation;  ///< C is worked through its years; `cover` is then empty
    rotation::Weather weather;              ///< that a calendar needs; its R is that of `rain`
    factors::PracticeDescription practice;
    std::optional<spread::Stated> tolerance;  ///< T, t/(ha yr)
    std::optional<spread::Stated> area_ha;
    std::optional<spread::Stated> drainage_area_km2;             ///< of the point downstream to which delivery is asked
    std::optional<spread::Stated> bulk_density;                  ///< t/m3
    std::optional<double> rock_fragments_pct;                    ///< by volume
    bool erodibility_includes_rock = false;                      ///< Kw rather than Kf
    structure::Credited credited = structure::Credited::tilled;  ///< what C already credits
    std::optional<structure::LocalReference> reference;
    bool use_tests = true;  ///< `structure factor: off` turns m off
    soiltest::Record tests;
    std::vector<Change> changes;
    std::string prepared_by, local_office;  ///< lines of the page, as written
    source::Remarks remarks;                ///< what the reader of the file noticed
};

}  // namespace soilhold::loss
