#include "loss/inputs.h"

#include <algorithm>

#include "factors/slope_profile.h"
#include "units/unit.h"

namespace soilhold::loss {

namespace {

/// What is said of a change; what was said of the field already isn't said again.
void append(source::Remarks& to, const source::Remarks& from, const source::Remarks& said = {}) {
    for (const source::Remark& remark : from)
        if (std::find(said.begin(), said.end(), remark) == said.end()) to.push_back(remark);
}

/// The slope length under a practice: the whole, or the interval that terraces leave.
void set_length(PracticeInputs& to, const spread::Stated& length_m, const factors::PracticeDescription& practice) {
    const spread::Stated left = factors::length_left(practice, length_m);
    const bool terraced = left.value < length_m.value;
    to.length_m = spread::with_spread(left, terraced ? "terrace-interval" : "length");
    to.cut = to.cut || terraced;
}

void set_practice(PracticeInputs& to, const factors::PracticeDescription& practice) {
    to.P = factors::support_practice(practice, to.gradient.central, to.length_m.central);
    to.leaving = factors::share_leaving(practice, to.gradient.central);
}

/// Whether C counts what past farming did to the soil, so that soak tests are judged against it.
bool credits_past_farming(const PracticeInputs& practice, const std::optional<factors::CoverDescription>& cover) {
    return practice.calendar || (cover && cover->holds_prior_land_use());
}

PracticeInputs after(const Change& change, const Field& field, const PracticeInputs& now,
                     const rotation::Climate& climate) {
    PracticeInputs result = now;
    result.remarks.clear();
    const factors::PracticeDescription& practice = change.practice ? *change.practice : field.practice;
    // A change's own length is that between barriers; another practice brings or takes terraces away.
    if (change.length_m || change.practice) {
        result.cut = change.length_m.has_value() && change.length_m->value < field.slope.length_m.value;
        set_length(result, change.length_m.value_or(field.slope.length_m), practice);
        result.own_length = !result.length_m.same_statement(now.length_m);
    }
    if (change.rotation) {
        result.calendar = now.calendar && now.calendar->set_by
                              ? rotation::cover_of_rotation(change.rotation->rotation, climate, *now.calendar->set_by)
                              : rotation::cover_of_rotation(change.rotation->rotation, climate);
        result.C = result.calendar->C;
        result.own_cover = true;
        result.remarks.push_back({source::Weight::note, "rotation-changed", change.rotation->sentence});
        append(result.remarks, result.C.remarks, now.C.remarks);
    } else if (change.cover) {
        result.calendar.reset();
        result.C = factors::cover_management(*change.cover, now.gradient.central, result.length_m.central);
        result.own_cover = true;
        append(result.remarks, result.C.remarks, now.C.remarks);
    }
    if (result.own_cover && credits_past_farming(result, change.cover) != credits_past_farming(now, field.cover)) {
        result.uses_structure = false;
        result.remarks.push_back({source::Weight::note, "structure-left-out",
                                  "The structure factor is left out of this change: its cover factor counts what past "
                                  "farming did to the soil in another way than the field's does."});
    }
    // A shorter slope can bring contouring within its limit, so P is worked out again with either.
    if (change.practice || change.length_m) {
        set_practice(result, practice);
        result.own_practice = change.practice.has_value() || result.P.central != now.P.central;
        append(result.remarks, result.P.remarks, now.P.remarks);
    }
    return result;
}

}  // namespace

structure::StructureFactor structure_of(const Field& field, const soiltest::Summary& tests, double erodibility_si,
                                        const std::optional<rotation::RotationCover>& calendar) {
    structure::StructureFactor none;
    if (field.tests.empty()) {
        none.why_not = "no soil test was made on this field";
        return none;
    }
    if (!field.use_tests) {
        none.why_not = "the field file turns the structure factor off";
        return none;
    }
    const structure::Soil soil{field.soil.clay_pct, field.soil.organic_matter_pct,
                               erodibility_si / units::erodibility_si_per_us, field.texture_class};
    const auto mode = calendar || field.cover.holds_prior_land_use() ? structure::CountingMode::credited
                                                                     : structure::CountingMode::cover_only;
    return structure::structure_factor(tests, soil, field.credited, mode, field.reference,
                                       calendar ? std::optional(calendar->calendar.credited_share) : std::nullopt);
}

double slope_factor_of(const FieldInputs& inputs, const PracticeInputs& practice, double length_m, double gradient) {
    return practice.cut
               ? factors::cut_slope_factor(length_m, gradient, inputs.shape, inputs.method, inputs.rill_ratio)
               : factors::profile_slope_factor(length_m, gradient, inputs.shape, inputs.method, inputs.rill_ratio);
}

double central_slope_factor(const FieldInputs& inputs, const PracticeInputs& practice) {
    return slope_factor_of(inputs, practice, practice.length_m.central, practice.gradient.central);
}

FieldInputs inputs_of(const Field& field) {
    FieldInputs inputs;
    inputs.R = factors::erosivity(field.rain);
    inputs.K = factors::erodibility(field.soil);
    inputs.method = field.slope.method;
    inputs.rill_ratio = field.slope.rill_ratio;
    inputs.shape = field.slope.shape;
    inputs.whole_length_m = field.slope.length_m.value;
    set_length(inputs.now, field.slope.length_m, field.practice);
    inputs.now.gradient = spread::with_spread(field.slope.gradient, "steepness");
    inputs.now.gradient.remarks = factors::slope_remarks(field.slope);
    rotation::Climate climate;
    if (field.rotation || std::any_of(field.changes.begin(), field.changes.end(),
                                      [](const Change& change) { return change.rotation.has_value(); })) {
        rotation::Weather weather = field.weather;
        weather.erosivity = inputs.R.central;
        climate = rotation::climate_of(weather);
    }
    if (field.rotation) {
        inputs.now.calendar = rotation::cover_of_rotation(field.rotation->rotation, climate, field.rotation->reading);
        inputs.now.C = inputs.now.calendar->C;
    } else {
        inputs.now.C = factors::cover_management(field.cover, inputs.now.gradient.central, inputs.now.length_m.central);
    }
    set_practice(inputs.now, field.practice);
    inputs.tests = soiltest::summarise(field.tests, field.texture_class);
    inputs.structure = structure_of(field, inputs.tests, inputs.K.central, inputs.now.calendar);
    for (const Change& change : field.changes) inputs.changes.push_back(after(change, field, inputs.now, climate));
    return inputs;
}

double central_loss(const FieldInputs& inputs, const PracticeInputs& practice) {
    const double m = practice.uses_structure ? inputs.structure.m() : 1.0;
    return inputs.R.central * inputs.K.central * m * central_slope_factor(inputs, practice) * practice.C.central *
           practice.P.central;
}

}  // namespace soilhold::loss
