/// Fields with a rotation for the tests of the cover page: an invented humid place, and made-up calendars.
#pragma once

#include "change/comparison.h"
#include "loss/made_field.h"
#include "rotation/places.h"
#include "rotation/short_forms.h"

namespace soilhold::report {

inline loss::Field farmed_field(const char* name, const char* words) {
    loss::Field field = loss::made_field(name, 0.3);
    field.cover.factor.reset();
    field.rotation = loss::RotationGiven{rotation::rotation_of_words(words), {}};
    field.weather = rotation::corn_belt_weather();
    field.weather.erosivity = 0;
    return field;
}

inline void add_way(loss::Field& field, const char* name, rotation::Edited edited) {
    loss::Change change;
    change.name = name;
    change.rotation = std::move(edited);
    field.changes.push_back(std::move(change));
}

/// A plowed field that could be chiseled, farmed without tillage, or be laid down to hay for three years.
inline loss::Field plowed_field(bool with_sod = false) {
    loss::Field field = farmed_field("Wether Fold", "corn-soybean, fall plow");
    const rotation::Rotation now = field.rotation->rotation;
    add_way(field, "chisel instead of plow", rotation::chisel_instead_of_plow(now));
    add_way(field, "no-till", rotation::no_till(now));
    if (with_sod) add_way(field, "three years of hay", rotation::years_of_sod(now, "alfalfa", 3));
    return field;
}

inline change::Comparison estimated(const std::vector<loss::Field>& fields) {
    return change::estimate(fields, {1024, 1});
}

}  // namespace soilhold::report
