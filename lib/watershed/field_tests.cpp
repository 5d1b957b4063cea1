#include "watershed/field_tests.h"

#include <algorithm>
#include <cmath>

#include "loss/inputs.h"

namespace soilhold::watershed {

namespace {

/// What is not said yet, at the place that says it.
void add(source::Remarks& to, const source::Remarks& more, const std::string& place) {
    for (const source::Remark& remark : more) {
        if (std::ranges::any_of(to, [&](const source::Remark& said) { return said.code == remark.code; })) continue;
        to.push_back(remark);
        if (to.back().place.empty()) to.back().place = place;
    }
}

}  // namespace

FieldStructure structure_of_field(const input::TestedField& tests, const Soil& soil, const RotationWorked* rotation,
                                  std::optional<structure::Credited> credits) {
    FieldStructure found;
    found.file = tests.file;
    found.soil = soil.key;
    loss::Field field;
    field.tests = tests.record;
    field.texture_class = soil.words.texture;
    field.soil.clay_pct = soil.words.clay_pct;
    field.soil.organic_matter_pct = soil.words.organic_matter_pct;
    field.credited = credits.value_or(structure::Credited::tilled);
    if (rotation == nullptr) field.cover.factor = spread::Stated{};  // a C of the whole: it holds what farming did
    const soiltest::Summary summary = soiltest::summarise(field.tests, field.texture_class);
    const auto calendar = rotation != nullptr ? std::optional(rotation->cover) : std::nullopt;
    if (std::isnan(soil.K)) {
        found.why_not = "the soil that was tested has no erodibility";
        return found;
    }
    const structure::StructureFactor factor = loss::structure_of(field, summary, static_cast<double>(soil.K), calendar);
    source::Remarks& said = found.remarks;
    said = tests.remarks;
    add(said, summary.remarks, tests.file);
    add(said, factor.remarks, tests.file);
    if (factor.assessment && rotation == nullptr && !credits)
        said.push_back({source::Weight::note, "credits-unsaid",
                        "What C credits is not said, so it is taken as that of tilled ground. Name a rotation, or "
                        "write 'credits' under 'cover'.",
                        tests.file});
    found.why_not = factor.why_not;
    if (!factor.assessment) return found;
    const structure::Assessment& a = *factor.assessment;
    found.m = a.m;
    found.low_80 = a.low_80;
    found.high_80 = a.high_80;
    found.log_sd = a.posterior_log_sd;
    found.W = a.W;
    found.W_ref = a.W_ref;
    return found;
}

}  // namespace soilhold::watershed
