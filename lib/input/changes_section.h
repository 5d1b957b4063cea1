/// `changes:` a list; each names what it changes of cover, rotation, practice and length.
///
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

void read_changes(const Reader& reader, const Node& changes, loss::Field& field);

}  // namespace soilhold::input
