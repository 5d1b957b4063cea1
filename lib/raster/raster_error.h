/// A map file that can't be used: what file, what GDAL said, what would be right.
///
/// It is a mistake of the input like any other: cli/ prints it with the rest and exits 2. A full disk or a folder that
/// can't be written is a WriteError (raster/atomic_file.h).
#pragma once

#include <string>

#include "input/diagnostic.h"

namespace soilhold::raster {

class RasterError : public input::InputError {
  public:
    /// @param file  as given on the command line
    /// @param code  stable, listed in docs/messages.md: "no-crs"
    /// @param text  a plain sentence or two, ending with what would be right
    RasterError(const std::string& file, const std::string& code, const std::string& text);
    const char* what() const noexcept override { return said_.c_str(); }
    const std::string& code() const { return diagnostics.front().code; }

  private:
    std::string said_;
};

}  // namespace soilhold::raster
