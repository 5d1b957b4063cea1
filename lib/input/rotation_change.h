/// `rotation:` of a change: the field's rotation farmed in another way, in words, a list of them done in order, or
/// another rotation altogether.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

std::optional<rotation::Edited> read_rotation_of_change(const Section& change, const loss::Field& field);

}  // namespace soilhold::input
