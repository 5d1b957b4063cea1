/// The entries of a rotation: one crop, one pass of a tool, residue taken or brought, animals on the field.
///
/// A figure without an owner of its own is the rotation's owner's. What can't be used becomes a mistake of the document
/// and nothing is returned.
#pragma once

#include <optional>

#include "input/section.h"
#include "rotation/rotation.h"

namespace soilhold::input {

/// What an entry stands in: the years of its rotation, and who tells of it.
struct RotationTold {
    int years = 1;
    source::Origin origin;
};

std::optional<rotation::CropGrown> read_crop(const Section& crop, const RotationTold& told);
std::optional<rotation::OperationDone> read_operation(const Section& operation, const RotationTold& told);
std::optional<rotation::ResidueRemoved> read_removed(const Section& removed, const RotationTold& told);
std::optional<rotation::ResidueAdded> read_added(const Section& added, const RotationTold& told);
std::optional<rotation::Grazing> read_grazing(const Section& grazing, const RotationTold& told);

}  // namespace soilhold::input
