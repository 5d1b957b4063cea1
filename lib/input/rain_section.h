/// `rain:` one of erosivity, annual, monthly, gauge; what looks like another unit or a sheet in hundreds is said.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/gauge_section.h"
#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_rain(const Section& rain, FilesBeside& files, loss::Field& field);

}  // namespace soilhold::input
