/// The worked example: a silt loam ploughed and the same soil under no-till with a cover crop; six spots of three
/// clods.
#pragma once

#include <cmath>
#include <optional>

#include "soiltest/made_record.h"
#include "soiltest/summary.h"
#include "structure/aggregate_scale.h"
#include "structure/structure_factor.h"

namespace soilhold::structure {

/// Clay 18 %, silt and very fine sand 68 %, OM 2.5 %, structure 3, permeability 3; K by the nomograph equation, here
/// written out so that this room needs no other.
inline Soil example_soil() {
    const double M = 68.0 * (100.0 - 18.0);
    const double K = (2.1e-4 * std::pow(M, 1.14) * (12.0 - 2.5) + 3.25 * (3 - 2) + 2.5 * (3 - 3)) / 100.0;
    return {18.0, 2.5, K, "silt loam"};
}

inline soiltest::Record ploughed() {
    soiltest::Record record = soiltest::clods_of({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}, {2, 4, 2}, {3, 2, 1}, {2, 2, 3}});
    record.slump = {soiltest::SlumpVerdict::slurry};
    return record;
}

inline soiltest::Record no_till() {
    soiltest::Record record = soiltest::clods_of({{5, 6, 5}, {6, 5, 4}, {5, 5, 6}, {4, 6, 5}, {6, 6, 5}, {5, 4, 5}});
    record.slump = {soiltest::SlumpVerdict::holds};
    return record;
}

inline StructureFactor factor(const soiltest::Record& record, const Soil& soil) {
    return structure_factor(soiltest::summarise(record, soil.texture_class), soil, Credited::tilled,
                            CountingMode::credited, std::nullopt);
}

inline Assessment assessed(const soiltest::Record& record, Credited credited, CountingMode mode) {
    const Soil soil = example_soil();
    return structure_factor(soiltest::summarise(record, soil.texture_class), soil, credited, mode, std::nullopt)
        .assessment.value();
}

}  // namespace soilhold::structure
