// soilhold cover: when in the year the soil is lost.
#include "cover.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <stdexcept>

#include "input/diagnostic.h"
#include "pages.h"
#include "report/cover_report.h"
#include "report/cover_tables.h"
#include "report/cover_year.h"
#include "report/output.h"
#include "result.h"
#include "units_option.h"

namespace soilhold::cli {

namespace {

/// One page a field; several carry the fields' names, and a number where two names make one file's.
std::vector<report::Output> cover_pages(const std::vector<report::CoverOfField>& fields, const Options& options) {
    const report::PageSettings settings = page_settings(options);
    const Target target = target_of(options.out);
    std::vector<report::Output> outputs;
    const auto taken = [&](const std::string& path) {
        for (const report::Output& output : outputs)
            if (output.path == path) return true;
        return false;
    };
    try {
        for (const report::CoverOfField& field : fields) {
            std::string part = fields.size() == 1 ? "" : "-" + file_part(field.estimate->field.name);
            for (int copy = 2; taken(target.stem + part + target.endings.front()); ++copy)
                part = fmt::format("-{}-{}", file_part(field.estimate->field.name), copy);
            for (const std::string& ending : target.endings)
                outputs.push_back({target.stem + part + ending, report::cover_page(field, settings, ending)});
        }
    } catch (const std::runtime_error& error) {
        throw report::OutputError(fmt::format("the page can't be drawn: {}", error.what()));
    } catch (const std::length_error& error) {
        throw report::OutputError(fmt::format("the page can't be drawn: {}", error.what()));
    }
    return outputs;
}

}  // namespace

void cover_options(CLI::App& command, Options& options) {
    command.add_option("FILE", options.files, "field files with a rotation; - is standard input")->required();
    auto* json = command.add_flag("--json", options.json, "one JSON object in SI units");
    auto* csv = command.add_flag("--csv", options.csv, "one row a half-month and way to farm");
    json->excludes(csv);
    units_option(command, options.units);
    command.add_option(
        "--out", options.out,
        "write the picture of the year: NAME makes NAME.pdf and NAME.html; .png and .svg make only that");
    command.add_option("--paper", options.paper, "letter or A4; by the units when not given")
        ->check(CLI::IsMember({"letter", "A4"}));
    command.add_option("--seed", options.seed, "seed of the draws; 1 when not given");
    command.add_flag("--quiet", options.quiet, "no notes on standard error");
    command.footer(
        "docs/cover-calendar.md says how the ratio of each half-month is worked out, and whose each step is.");
}

Exit cover(const Options& options) {
    const change::Comparison comparison = change::estimate(read_fields(options), {options.draws, options.seed});
    const std::vector<report::CoverOfField> fields = report::cover_of_fields(comparison);
    if (fields.empty()) {
        input::Diagnostic mistake;
        mistake.place.file = options.files.front();
        mistake.code = "no-rotation";
        mistake.text =
            "no field of this file has a rotation, so there is no calendar to show. Give one in the field's cover, as "
            "'rotation: corn-soybean, fall chisel', and the temperature and rain of the place under 'weather:'; "
            "docs/field-files.md shows both";
        throw input::InputError(std::vector<input::Diagnostic>(1, mistake));
    }
    const std::string text = options.json  ? report::cover_json(fields, SOILHOLD_VERSION)
                             : options.csv ? report::cover_csv(fields, options.units)
                                           : report::cover_text(fields, options.units);
    if (!options.out.empty()) {
        const std::vector<report::Output> outputs = cover_pages(fields, options);
        report::write_all(outputs);
        if (!options.quiet)
            for (const report::Output& output : outputs) std::fprintf(stderr, "wrote %s\n", output.path.c_str());
    }
    if (!options.quiet)
        for (const loss::FieldEstimate& estimate : comparison.fields)
            if (!estimate.field.rotation)
                std::fprintf(stderr, "%s has no rotation and is left out\n", estimate.field.name.c_str());
    std::fputs(text.c_str(), stdout);
    return Exit::done;
}

}  // namespace soilhold::cli
