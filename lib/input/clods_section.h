/// `slake:` and `slump:` of the tests: clod by clod, strainer by strainer.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_slake(const Reader& reader, const Node& slake, soiltest::Record& record);
void read_slump(const Reader& reader, const Node& slump, soiltest::Record& record);

}  // namespace soilhold::input
