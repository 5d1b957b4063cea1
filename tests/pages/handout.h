/// Handouts for tests: the worked pair of the trade notes with invented soak tests, fair, unfair, long-winded, alone.
#pragma once

#include "change/comparison.h"
#include "loss/made_field.h"

namespace soilhold::pages {

using loss::fell_apart;
using loss::held;
using loss::Spots;
using loss::tested;

inline loss::Change change_of_cover(const std::string& name, double C) {
    loss::Change change;
    change.name = name;
    change.cover = factors::CoverDescription{};
    change.cover->factor = loss::stated(C);
    return change;
}

inline std::vector<loss::Field> two_fields() {
    std::vector<loss::Field> fields = {tested(loss::made_field("Hill", 0.32), fell_apart),
                                       tested(loss::made_field("Dale", 0.08), held)};
    fields[0].changes = {change_of_cover("No-till", 0.10), change_of_cover("Chisel the land", 0.2)};
    return fields;
}

inline change::Comparison fair() { return change::compare(two_fields(), {1024, 1}); }

inline change::Comparison unfair() {
    auto fields = two_fields();
    auto& handling = fields[1].tests.handling;
    handling.drying_days = 0.2;
    handling.water = "pond water";
    handling.scorer = "two";
    handling.depth_bottom_mm = 150;
    handling.clod_least_mm = 20;
    handling.clod_most_mm = 30;
    handling.date = std::chrono::year(2025) / 7 / 8;
    fields[1].slope.gradient.value = 0.15;
    fields[1].texture_class = "clay";
    return change::compare(fields, {1024, 1});
}

/// Everything as long as it may come, and more.
inline change::Comparison wordy() {
    auto fields = two_fields();
    fields[0].name = "The long forty below the old dairy lane, north half, first terrace downwards from the gate";
    fields[1].name = "The long forty below the old dairy lane, south half, second terrace downwards from the gate";
    for (loss::Field& field : fields) {
        while (field.changes.size() < 6)
            field.changes.push_back(change_of_cover(
                "A change with quite a long name " + std::to_string(field.changes.size()) + " that goes on and on",
                0.03 + 0.01 * static_cast<double>(field.changes.size())));
        for (loss::Change& change : field.changes)
            change.note = "A note on what it costs, who has the drill, when it can be done and what it does not fix.";
        field.rain.erosivity->origin.from = "the rain sheet of a district with quite a long name, third edition";
        field.cover.factor->origin.from = "a local table with quite a long name for beets, oats and fodder, page 112";
        field.farm = "A farm with a name that is longer than most names of farms are, and then some more";
        field.prepared_by = "someone with a long name at a desk with a longer name in a town with the longest";
        field.local_office = "the office for the ground of three valleys and the hills between them, lower floor";
    }
    return change::compare(fields, {1024, 1});
}

inline change::Comparison bare() { return change::estimate({loss::made_field("Hill", 0.32)}, {1024, 1}); }

}  // namespace soilhold::pages
