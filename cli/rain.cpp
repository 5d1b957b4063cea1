// soilhold rain: erosivity R from the record of a rain gauge.
#include "rain.h"

#include <CLI/CLI.hpp>
#include <cstdio>

#include "report/rain_tables.h"
#include "units_option.h"

namespace soilhold::cli {

void rain_options(CLI::App& command, Options& options, input::RainOptions& rain) {
    command.add_option("FILE", options.files, "a gauge record as CSV; - is standard input")->required()->expected(1);
    auto* json = command.add_flag("--json", options.json, "one JSON object in SI units");
    auto* csv = command.add_flag("--csv", options.csv, "one row a storm, year, half month and gap");
    json->excludes(csv);
    command.add_option("--time", rain.time, "heading or number of the time column; DATE+CLOCK for two");
    command.add_option("--depth", rain.depth, "heading or number of the depth column");
    command.add_option("--unit", rain.unit, "in or mm, where the heading doesn't say");
    command.add_option("--kind", rain.kind, "tips, interval or cumulative, where the rows don't show it");
    command.add_option("--interval", rain.interval, "of a logger, like \"15 min\"");
    command.add_option("--stamp", rain.stamp, "end or start of the interval that a row stands for");
    command.add_flag("--dry-left-out", rain.dry_left_out, "this logger writes no rows while it is dry");
    command.add_option("--tip", rain.tip, "depth of one tip, like \"0.01 in\"; with --depth, its column counts tips");
    command.add_option("--zone", rain.zone, "of the stamps: America/Chicago, CST, -06:00");
    units_option(command, options.units);
    command.footer("docs/gauge-records.md says what is read, how, and whose each step is.");
}

Exit rain(const Options& options, const input::RainOptions& rain) {
    input::RainRecord read = input::read_rain_record(options.files.front(), rain);
    report::RainResult result = report::rain_result(std::move(read.record));
    result.file = read.name;
    result.read_as = std::move(read.read_as);
    result.rows = read.rows;
    result.missing_values = read.missing_values;
    result.file_remarks = std::move(read.remarks);
    const std::string text = options.json  ? report::rain_json(result, SOILHOLD_VERSION)
                             : options.csv ? report::rain_csv(result, options.units)
                                           : report::rain_text(result, options.units);
    std::fputs(text.c_str(), stdout);
    return Exit::done;
}

}  // namespace soilhold::cli
