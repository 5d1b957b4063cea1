/// `rain:` one of erosivity, annual, monthly; what looks like another unit or a sheet in hundreds is said.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_rain(const Section& rain, loss::Field& field);

}  // namespace soilhold::input
