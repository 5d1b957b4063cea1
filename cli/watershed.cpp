// soilhold watershed: which fields of a watershed to visit first.
#include "watershed.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <vector>

#include "input/watershed_file.h"
#include "interrupt.h"
#include "memory_size.h"
#include "progress_line.h"
#include "report/watershed_report.h"
#include "run.h"
#include "units_option.h"
#include "watershed/slope_map.h"
#include "watershed/watershed_work.h"
#include "watershed_files.h"
#include "watershed_map_file.h"

namespace soilhold::cli {

using watershed::WorkedWatershed;

void watershed_options(CLI::App& command, WatershedArguments& arguments) {
    command.add_option("FILE", arguments.file, "a watershed file (docs/watershed.md); - is standard input")->required();
    command.add_option("--out", arguments.out,
                       "NAME makes NAME-loss.tif, NAME-ls.tif, NAME-classes.tif, NAME.gpkg, NAME.csv and NAME.json");
    command.add_option("--map", arguments.map, "FILE.pdf, .svg or .png: the map of the ranking on one sheet")
        ->check([](const std::string& name) {
            const bool known = name.ends_with(".pdf") || name.ends_with(".svg") || name.ends_with(".png");
            return known ? std::string() : "a map is a .pdf, .svg or .png, not '" + name + "'";
        });
    command.add_option("--top", arguments.top, "how many fields can be visited, instead of 'visits' in the file")
        ->check(CLI::Range(1, 100000));
    auto* json = command.add_flag("--json", arguments.json, "one JSON object in SI units");
    command.add_flag("--csv", arguments.csv, "one row a field, for a spreadsheet")->excludes(json);
    units_option(command, arguments.units);
    command.add_option("--draws", arguments.draws, "draws of the ranking; 1000 when not given")
        ->check(CLI::Range(1, 1000000));
    command.add_option("--seed", arguments.seed, "seed of the draws; 1 when not given");
    command.add_option("--threads", arguments.threads, "as many as the machine has when not given")
        ->check(CLI::Range(1, 1024));
    command.add_option("--memory", arguments.memory,
                       "how much it may take, like 4 GB; a quarter of the machine's when not given");
    command.add_flag("--quiet", arguments.quiet, "no progress on standard error");
    command.footer("docs/watershed.md says what is read, what is worked and whose each step is.");
}

Exit watershed(const WatershedArguments& arguments) {
    watershed::WorkSettings settings;
    try {
        settings.memory = arguments.memory.empty() ? usual_memory() : read_memory_size(arguments.memory);
    } catch (const std::invalid_argument& error) {
        return refuse_arguments(("--memory " + arguments.memory + ": " + error.what()).c_str());
    }
    try {
        ::setenv("GDAL_NUM_THREADS", arguments.threads > 0 ? std::to_string(arguments.threads).c_str() : "ALL_CPUS", 0);
        const input::WatershedFile file = input::read_watershed_file(arguments.file);
        const WatershedTargets targets{arguments.out, arguments.map};
        const std::string both = read_and_written(targets, file);
        if (!both.empty())
            return refuse_arguments((both + " is read by this ranking. Give another name to write to.").c_str());
        if (!written_unnamed(targets)) hold_back_interrupts();
        if (arguments.top > 0) settings.visits = arguments.top;
        settings.draws = arguments.draws;
        settings.seed = arguments.seed;
        settings.threads = arguments.threads;
        WorkedWatershed worked;
        {
            ProgressLine line(!arguments.quiet);
            worked = watershed::work_watershed(file, settings, [&](double share) {
                line.reached(share);
                return interrupted_by() == 0;
            });
        }
        const std::string map =
            arguments.map.empty() ? std::string() : map_bytes(arguments.map, file, worked.result, arguments.units);
        write_watershed_files(worked, targets, arguments.units, map);
        const std::string text = arguments.json ? report::watershed_json(worked.result, SOILHOLD_VERSION)
                                 : arguments.csv
                                     ? report::watershed_csv(worked.result, arguments.units)
                                     : report::watershed_text(worked.result, arguments.units, targets.paths());
        std::fputs(text.c_str(), stdout);
        return Exit::done;
    } catch (const watershed::Stopped&) {
        std::fputs("soilhold: stopped; nothing was written.\n", stderr);
        return Exit::machine_failed;
    }
}

}  // namespace soilhold::cli
