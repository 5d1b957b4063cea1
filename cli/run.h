/// How every program of soilhold ends: what is printed when it can't go on, and the exit code.
#pragma once

#include <functional>

#include "options.h"

namespace soilhold::cli {

/// Runs and prints what it could not do on standard error: mistakes of the input (exit 2), failures of the machine and
/// faults of the program (exit 3). @return the exit code
int run_and_say(const std::function<Exit()>& run);

/// "soilhold: why [arguments]", and where help is.
Exit refuse_arguments(const char* why);

}  // namespace soilhold::cli
