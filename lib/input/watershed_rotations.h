/// `rotations:` and `weather:` of a watershed file: what is grown on fields that name a rotation.
///
/// A list, each item with its `name` and its `rotation` as a field file writes it (rotation_section.h), and `residue
/// reading` where one was made. The weather is one for all, as field files give it (weather_section.h); R comes from
/// the watershed's `rain`.
/// What can't be used becomes a mistake of the document; reading goes on.
#pragma once

#include "input/section.h"
#include "input/watershed_file.h"

namespace soilhold::input {

/// `rotations`, `weather`, and the rotations that practices on offer and the fields' column name. After `rain`,
/// `fields` and `offered`.
void read_watershed_rotations(const Section& top, WatershedFile& file);

}  // namespace soilhold::input
