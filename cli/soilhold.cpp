// The command line of soilhold: reads the arguments and hands over to the command's own file.
#include <CLI/CLI.hpp>
#include <cstring>

#include "cover.h"
#include "map_commands.h"
#include "options.h"
#include "rain.h"
#include "run.h"
#include "units_option.h"

namespace {

using soilhold::cli::Exit;
using soilhold::cli::Options;

const char* const description =
    "soilhold: how much soil a field loses, how many times more than another,\n"
    "and how sure that is. An estimate to talk over, not a plan: where the local\n"
    "conservation office has other values, theirs hold.";

void shared_options(CLI::App& command, Options& options) {
    command.add_option("FILE", options.files, "field files; - is standard input")->required();
    auto* json = command.add_flag("--json", options.json, "one JSON object in SI units");
    auto* csv = command.add_flag("--csv", options.csv, "one row a figure, for a spreadsheet");
    json->excludes(csv);
    command.add_flag("--explain", options.explain, "then how each value came about, step by step")->excludes(csv);
    soilhold::cli::units_option(command, options.units);
    command.add_option("--out", options.out, "write the page: NAME makes NAME.pdf and NAME.html");
    command.add_option("--paper", options.paper, "letter or A4; by the units when not given")
        ->check(CLI::IsMember({"letter", "A4"}));
    command.add_option("--seed", options.seed, "seed of the draws; 1 when not given");
    command.add_option("--at-most", options.at_most, "a loss or T: exit 1 when a field loses more");
    command.add_flag("--quiet", options.quiet, "no progress and no notes on standard error");
}

/// Parses the arguments and runs the command named.
Exit run(int argc, char** argv) {
    for (const auto& command : soilhold::cli::map_commands)
        if (argc > 1 && std::strcmp(argv[1], command.name) == 0) return soilhold::cli::hand_over_to_maps(argv);
    CLI::App app{description, "soilhold"};
    app.set_version_flag("--version", "soilhold " SOILHOLD_VERSION);
    app.require_subcommand(1);
    app.footer(
        "Exit: 0 done, 1 a requested limit was not met, 2 the input can't be used,\n3 the machine failed. Field files: "
        "docs/field-files.md");

    Options options;
    CLI::App* estimate = app.add_subcommand("estimate", "the yearly soil loss of each field, with its range");
    shared_options(*estimate, options);
    CLI::App* compare = app.add_subcommand("compare", "fields side by side, and the ratio where that is fair");
    shared_options(*compare, options);
    CLI::App* cover = app.add_subcommand("cover", "when in the year the soil is lost, for each way to farm");
    soilhold::cli::cover_options(*cover, options);
    CLI::App* cite = app.add_subcommand("cite", "the sources behind the figures, and how far each was seen");
    cite->add_option("WORD", options.words, "only sources that hold every word");
    cite->add_flag("--json", options.json, "as JSON");
    CLI::App* factor = app.add_subcommand("factor", "one quantity alone, a table of them, or the list");
    factor->add_option("NAME", options.words, "the quantity, then its inputs as key=value");
    factor->add_option("--table", options.table, "a CSV of rows: expected, computed, difference");
    factor->add_flag("--all", options.all, "with 'erodibility': every method of K side by side");
    factor->add_flag("--list", options.list, "every quantity with its inputs and unit");
    factor->add_flag("--json", options.json, "as JSON");
    factor->add_flag("--csv", options.csv, "the table as CSV");
    soilhold::input::RainOptions rain_columns;
    CLI::App* rain = app.add_subcommand("rain", "erosivity R from the record of a rain gauge");
    soilhold::cli::rain_options(*rain, options, rain_columns);
    for (const auto& command : soilhold::cli::map_commands) app.add_subcommand(command.name, command.says);

    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // Help and version come as "errors" with code 0; a wrong argument is input that can't be used.
        if (error.get_exit_code() == 0) {
            app.exit(error);
            return Exit::done;
        }
        return soilhold::cli::refuse_arguments(error.what());
    }
    if (estimate->parsed()) return soilhold::cli::estimate(options);
    if (compare->parsed()) return soilhold::cli::compare(options);
    if (cover->parsed()) return soilhold::cli::cover(options);
    if (rain->parsed()) return soilhold::cli::rain(options, rain_columns);
    if (factor->parsed()) return soilhold::cli::factor(options);
    return soilhold::cli::cite(options);
}

}  // namespace

int main(int argc, char** argv) {
    return soilhold::cli::run_and_say([&] { return run(argc, argv); });
}
