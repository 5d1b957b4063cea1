/// `cover:` C, its parts, or a table that holds it. `credited` is what `credits:` says; may be nullptr.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

std::optional<factors::CoverDescription> read_cover(const Section& cover, std::optional<structure::Credited>* credited);

}  // namespace soilhold::input
