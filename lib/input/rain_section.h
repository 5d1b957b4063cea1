/// `rain:` one of erosivity, annual, monthly, gauge; what looks like another unit or a sheet in hundreds is said.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <string>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// @param path  of the field file, beside which a gauge record stands
void read_rain(const Section& rain, const std::string& path, loss::Field& field);

}  // namespace soilhold::input
