/// The inputs of one field's estimate, each worked out once from what its file says: R, K, slope, C, P and m.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loss/field.h"
#include "rotation/rotation_cover.h"
#include "soiltest/summary.h"
#include "structure/structure_factor.h"

namespace soilhold::loss {

/// The inputs of one way of farming a field: as now, or after a change.
struct PracticeInputs {
    spread::Uncertain length_m, gradient, C, P;
    std::optional<rotation::RotationCover> calendar;  ///< where C is worked through a rotation
    std::optional<spread::Uncertain> leaving;  ///< share of the loss that leaves the field, where something catches it
    bool cut = false;  ///< length_m is that of pieces that terraces or barriers cut the slope into
    bool own_length = false, own_cover = false, own_practice = false;  ///< differs from as-now
    bool uses_structure = true;  ///< false where C and m would credit the same structure twice
    source::Remarks remarks;
};

struct FieldInputs {
    spread::Uncertain R;  ///< MJ mm/(ha h yr)
    spread::Uncertain K;  ///< t ha h/(ha MJ mm)
    factors::SlopeMethod method = factors::SlopeMethod::handbook_703;
    factors::RillRatio rill_ratio = factors::RillRatio::moderate;
    factors::SlopeShape shape;    ///< of a slope that bends
    double whole_length_m = 0.0;  ///< of the slope before anything cuts it
    soiltest::Summary tests;
    structure::StructureFactor structure;
    PracticeInputs now;
    std::vector<PracticeInputs> changes;  ///< in the order of Field::changes
};

/// @throws std::invalid_argument when R, K or C has no description at all (the reader of the file sees to it)
FieldInputs inputs_of(const Field& field);

/// m of a field as farmed now: judged against what its C already counts, so that nothing counts twice.
/// @param calendar  where C is worked through a rotation; it says by itself how much rest C credits
structure::StructureFactor structure_of(const Field& field, const soiltest::Summary& tests, double erodibility_si,
                                        const std::optional<rotation::RotationCover>& calendar);

/// A = R K m LS C P at the central values, t/(ha yr).
double central_loss(const FieldInputs& inputs, const PracticeInputs& practice);

/// LS of a practice at given length and gradient.
double slope_factor_of(const FieldInputs& inputs, const PracticeInputs& practice, double length_m, double gradient);

/// LS at the central length and gradient.
double central_slope_factor(const FieldInputs& inputs, const PracticeInputs& practice);

}  // namespace soilhold::loss
