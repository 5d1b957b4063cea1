/// The arguments of soilhold watershed, and the command itself.
#pragma once

#include <cstdint>
#include <string>

#include "options.h"

namespace CLI {
class App;
}

namespace soilhold::cli {

/// As they were written; what can be left out is empty or 0 then.
struct WatershedArguments {
    std::string file, out, map, memory;
    std::size_t top = 0;  ///< 0: as the file says
    std::size_t draws = 1000;
    std::uint64_t seed = 1;
    int threads = 0;
    units::System units = units::System::us;
    bool json = false, csv = false, quiet = false;
};

void watershed_options(CLI::App& command, WatershedArguments& arguments);

Exit watershed(const WatershedArguments& arguments);

}  // namespace soilhold::cli
