/// The fields of a watershed with what their columns say: C, P, T, tillage, rotation and soil tests.
///
/// A cell of a column that is blank says nothing, and the layers hold. A name that leads nowhere (a rotation that is
/// not in the list, a test file that is not there, a tested field that has no outline) is a mistake, never passed over.
#pragma once

#include <string>
#include <vector>

#include "input/watershed_file.h"
#include "raster/placement.h"
#include "raster/polygons.h"
#include "watershed/fields.h"

namespace soilhold::watershed {

struct FieldMap {
    std::vector<FieldGiven> fields;
    std::vector<raster::LeftOut> left_out;
    std::vector<raster::Overlap> overlaps;  ///< places in `fields`
    source::Remarks remarks;
};

/// @throws raster::RasterError where the file can't be used, lacks a column, or a column holds what can't be used;
///         input::InputError for tests that can't be read, and of fields that are not there
FieldMap read_fields(const input::WatershedFile& file, const raster::Placement& placement);

/// An attribute as people write it: trimmed, whole numbers without a point.
std::string text_of(const raster::Attribute& attribute);

}  // namespace soilhold::watershed
