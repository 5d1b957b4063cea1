/// `practice:` P or contouring; a word alone (`practice: contouring`) will do.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

std::optional<factors::PracticeDescription> read_practice(const Reader& reader, const Node& practice);

}  // namespace soilhold::input
