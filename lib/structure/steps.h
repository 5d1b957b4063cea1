/// The working of m, in the seven steps of docs/structure-factor.md section 6, with the field's own numbers.
///
/// It repeats no decision: every number is one that the assessment holds or that its own functions give.
#pragma once

#include "source/step.h"
#include "structure/structure_factor.h"

namespace soilhold::structure {

source::Steps steps_of(const soiltest::Summary& tests, const Soil& soil, const Assessment& assessment);

/// The working of the ratio that structure alone makes of two fields (section 5 there).
source::Steps ratio_steps(const Assessment& first, const Assessment& second, const StructureRatio& ratio);

}  // namespace soilhold::structure
