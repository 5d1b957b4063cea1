/// A veil of ink as the bytes of a PNG, for pages that carry their pictures within: without a library, unpacked.
/// @source  PNG (ISO/IEC 15948), zlib (RFC 1950), base64 (RFC 4648); from memory
#pragma once

#include <string>

#include "report/scene.h"

namespace soilhold::report {

/// One byte a cell: a palette of ink, its opacity the veil's value. @throws std::invalid_argument where the values are
/// not as many as the cells
std::string veil_png(const Veil& veil);

std::string in_base64(const std::string& bytes);

}  // namespace soilhold::report
