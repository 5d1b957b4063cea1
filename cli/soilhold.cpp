// The command line of soilhold: reads the arguments and hands over to the command's own file.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <new>

#include "cover.h"
#include "input/diagnostic.h"
#include "options.h"
#include "rain.h"
#include "report/output.h"

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
    command
        .add_option_function<std::string>(
            "--units",
            [&options](const std::string& name) {
                options.units = name == "metric" ? soilhold::units::System::metric : soilhold::units::System::us;
            },
            "us or metric; us when not given")
        ->check(CLI::IsMember({"us", "metric"}));
    command.add_option("--out", options.out, "write the page: NAME makes NAME.pdf and NAME.html");
    command.add_option("--paper", options.paper, "letter or A4; by the units when not given")
        ->check(CLI::IsMember({"letter", "A4"}));
    command.add_option("--seed", options.seed, "seed of the draws; 1 when not given");
    command.add_option("--at-most", options.at_most, "a loss or T: exit 1 when a field loses more");
    command.add_flag("--quiet", options.quiet, "no progress and no notes on standard error");
}

/// Parses the arguments and runs the command named.
Exit run(int argc, char** argv) {
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

    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // Help and version come as "errors" with code 0; a wrong argument is input that can't be used.
        if (error.get_exit_code() == 0) {
            app.exit(error);
            return Exit::done;
        }
        std::fprintf(stderr, "soilhold: %s [arguments]\nTry 'soilhold --help'.\n", error.what());
        return Exit::bad_input;
    }
    if (estimate->parsed()) return soilhold::cli::estimate(options);
    if (compare->parsed()) return soilhold::cli::compare(options);
    if (cover->parsed()) return soilhold::cli::cover(options);
    if (rain->parsed()) return soilhold::cli::rain(options, rain_columns);
    if (factor->parsed()) return soilhold::cli::factor(options);
    return soilhold::cli::cite(options);
}

void print_mistakes(const soilhold::input::InputError& error) {
    for (const auto& diagnostic : error.diagnostics) std::fputs(soilhold::input::render(diagnostic).c_str(), stderr);
    std::fprintf(stderr, "%zu %s to mend; nothing was written.\n", error.diagnostics.size(),
                 error.diagnostics.size() == 1 ? "mistake" : "mistakes");
}

}  // namespace

int main(int argc, char** argv) {
    Exit exit = Exit::machine_failed;
    try {
        exit = run(argc, argv);
    } catch (const soilhold::input::InputError& error) {
        print_mistakes(error);
        exit = Exit::bad_input;
    } catch (const soilhold::report::OutputError& error) {
        std::fprintf(stderr, "soilhold: %s\n", error.what());
    } catch (const std::bad_alloc&) {
        std::fputs("soilhold: out of memory\n", stderr);
    } catch (const std::exception& error) {
        std::fprintf(
            stderr,
            "soilhold: a fault of the program, not of your file: %s\nPlease report it with the file that led to "
            "it.\n",
            error.what());
    }
    return static_cast<int>(exit);
}
