/// The working of m, in the seven steps of docs/structure-factor.md section 6, with the field's own numbers.
///
/// It repeats no decision: every number is one that the assessment holds or that its own functions give.
#pragma once

#include "source/step.h"
#include "structure/structure_factor.h"

namespace soilhold::structure {

source::Steps steps_of(const soiltest::Summary& tests, const Soil& soil, const Assessment& assessment);

}  // namespace soilhold::structure
