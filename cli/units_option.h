/// `--units us|metric`, the same for every command that prints figures.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "units/unit.h"

namespace soilhold::cli {

inline void units_option(CLI::App& command, units::System& to) {
    command
        .add_option_function<std::string>(
            "--units",
            [&to](const std::string& name) { to = name == "metric" ? units::System::metric : units::System::us; },
            "us or metric; us when not given")
        ->check(CLI::IsMember({"us", "metric"}));
}

}  // namespace soilhold::cli
