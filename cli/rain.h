/// The arguments of soilhold rain, and the command itself.
#pragma once

#include "input/rain_record.h"
#include "options.h"

namespace CLI {
class App;
}

namespace soilhold::cli {

void rain_options(CLI::App& command, Options& options, input::RainOptions& rain);

Exit rain(const Options& options, const input::RainOptions& rain);

}  // namespace soilhold::cli
