// The command line of soilhold-maps, which soilhold becomes for the commands on maps (map_commands.h).
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdlib>
#include <string>
#include <vector>

#include "map_commands.h"
#include "raster/atomic_file.h"
#include "report/output.h"
#include "run.h"
#include "terrain.h"
#include "watershed.h"

namespace {

using soilhold::cli::Exit;

Exit run(int argc, char** argv) {
    CLI::App app{"The commands of soilhold that work on maps; start them as 'soilhold COMMAND'.", "soilhold"};
    app.set_version_flag("--version", "soilhold " SOILHOLD_VERSION);
    app.require_subcommand(1);
    soilhold::cli::TerrainArguments terrain_arguments;
    soilhold::cli::WatershedArguments watershed_arguments;
    for (const auto& command : soilhold::cli::map_commands) app.add_subcommand(command.name, command.says);
    soilhold::cli::terrain_options(*app.get_subcommand("terrain"), terrain_arguments);
    CLI::App* watershed = app.get_subcommand("watershed");
    soilhold::cli::watershed_options(*watershed, watershed_arguments);
    try {
        std::vector<std::string> words = soilhold::cli::with_units_joined({argv + 1, argv + argc});
        std::reverse(words.begin(), words.end());  // as CLI11 takes them
        app.parse(words);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {
            app.exit(error);
            return Exit::done;
        }
        return soilhold::cli::refuse_arguments(error.what());
    }
    if (watershed->parsed()) return soilhold::cli::watershed(watershed_arguments);
    return soilhold::cli::terrain(terrain_arguments);
}

}  // namespace

int main(int argc, char** argv) {
    // GDAL keeps a twentieth of the machine's memory for cells it has read; every cell is read and written once here.
    ::setenv("GDAL_CACHEMAX", "64", 0);
    return soilhold::cli::run_and_say([&] {
        try {
            return run(argc, argv);
        } catch (const soilhold::raster::WriteError& error) {
            throw soilhold::report::OutputError(error.what());
        }
    });
}
