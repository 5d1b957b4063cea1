/// `soil tests:` of a watershed file: which field was tested, in which file, and on which soil.
///
/// A list, each item with the `field` as the outlines name it, the `file` of its tests (test_file.h), which lies beside
/// the watershed file, and the map unit `soil` on which they were made, where that is known.
/// What can't be used becomes a mistake of the document; reading goes on.
#pragma once

#include "input/section.h"
#include "input/watershed_file.h"

namespace soilhold::input {

/// `soil tests`, and what C credits where a class or figure gives it. After `soils` and `cover`.
void read_watershed_tests(const Section& top, WatershedFile& file);

}  // namespace soilhold::input
