#include "raster/raster_error.h"

namespace soilhold::raster {

RasterError::RasterError(const std::string& file, const std::string& code, const std::string& text)
    : input::InputError({input::Diagnostic{input::Place{file, 0, 0}, code, text, ""}}),
      said_(file + ": " + text + " [" + code + "]") {}

}  // namespace soilhold::raster
