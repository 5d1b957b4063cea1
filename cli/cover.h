/// The arguments of soilhold cover, and the command itself.
#pragma once

#include "options.h"

namespace CLI {
class App;
}

namespace soilhold::cli {

void cover_options(CLI::App& command, Options& options);

/// When in the year each field's soil is lost, as now and under its changes; bad_input where no field has a rotation.
Exit cover(const Options& options);

}  // namespace soilhold::cli
