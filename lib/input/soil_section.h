/// `soil:` who the soil is, K or what K is worked out from, T, bulk density, the local reference.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_soil(const Section& soil, loss::Field& field);

}  // namespace soilhold::input
