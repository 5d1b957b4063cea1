/// Open Sans cut down to the letters a page uses, as CSS that stands inside the page: nothing is fetched.
#pragma once

#include <string>

namespace soilhold::report {

/// RFC 4648 with padding.
std::string base64(const std::string& bytes);

/// Two @font-face rules, Regular and Bold, holding the glyphs of `letters` (UTF-8).
/// @throws PaintError, std::runtime_error when a font can't be read or cut
std::string font_face_css(const std::string& letters);

}  // namespace soilhold::report
