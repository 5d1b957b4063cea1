/// `cover: rotation:` what is grown and done through the years, in a few words or at length, and `residue reading:`,
/// which sets its calendar.
///
/// In words: `corn-soybean, fall chisel` (rotation/short_forms.h). At length: crops, passes of tools, residue taken and
/// brought, grazing; `usual:` begins from a short form, over which `crops` are laid and which a list of `operations`,
/// `residue removed`, ... replaces.
/// What can't be used becomes a mistake of the document, what looks odd a remark with its place; reading goes on.
#pragma once

#include <optional>

#include "input/section.h"
#include "loss/field.h"

namespace soilhold::input {

/// A rotation, or nothing when it holds a mistake. `outer` is whose it is where it doesn't say.
std::optional<rotation::Rotation> read_rotation(const Reader& reader, const Node& node, const source::Origin& outer);

/// `rotation` and `residue reading` of a cover that has one of them.
void read_rotation_of_cover(const Section& cover, loss::Field& field);

}  // namespace soilhold::input
