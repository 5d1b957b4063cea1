/// Invented records for the tests of soiltest/ and structure/.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "soiltest/record.h"

namespace soilhold::soiltest {

inline Record clods_of(const std::vector<std::vector<int>>& spots) {
    Record record;
    for (const std::vector<int>& classes : spots) {
        Spot spot{"spot " + std::to_string(record.slake_spots.size() + 1), {}};
        for (const int slake_class : classes) spot.clods.push_back({slake_class, false, false});
        record.slake_spots.push_back(std::move(spot));
    }
    return record;
}

/// The same with everything about the handling written down, as it should be.
inline Record careful_record(const std::vector<std::vector<int>>& spots) {
    using namespace std::chrono;
    Record record = clods_of(spots);
    record.handling.date = year{2026} / April / 8;
    record.handling.drying_days = 4.0;
    record.handling.clod_least_mm = 6.0;
    record.handling.clod_most_mm = 8.0;
    record.handling.depth_top_mm = 0.0;
    record.handling.depth_bottom_mm = 50.0;
    record.handling.water = "rain water";
    record.handling.scorer = "first scorer";
    record.handling.position = SpotPosition::field;
    record.handling.days_since_tillage = 190.0;
    return record;
}

}  // namespace soilhold::soiltest
