/// C of each rotation that a watershed file lists, worked once by its calendar (rotation/rotation_cover.h) and used on
/// every field that names it.
///
/// The doubt of such a C lies in the parts of the calendar, which are one table's for all rotations: each part is one
/// source of doubt for all of them, so that it moves two fields of one rotation alike and cancels between them. What a
/// reading of residue set is a rotation's own.
/// @source docs/cover-calendar.md; the spreads: data/reference/rotation-doubts.csv (our assumption)
#pragma once

#include <string>
#include <vector>

#include "input/watershed_file.h"
#include "rotation/rotation_cover.h"
#include "watershed/loss_map.h"
#include "watershed/ranking.h"

namespace soilhold::watershed {

struct RotationWorked {
    std::string name;   ///< as fields name it
    std::string words;  ///< "corn-soybean, fall chisel"
    rotation::RotationCover cover;
    std::vector<SharedDoubt> doubts;  ///< of ln C
    std::size_t fields = 0;           ///< that name it and have a loss
    double low_80 = 0, high_80 = 0;   ///< of C
};

/// @param R  of the watershed; of a raster the mean is taken, since the calendar needs it only for how fast rain wears
///           roughness down
/// @throws input::InputError where a calendar can't be worked
std::vector<RotationWorked> work_rotations(const input::WatershedFile& file, const Factor& R, source::Remarks& remarks);

}  // namespace soilhold::watershed
