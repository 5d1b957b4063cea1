#include "result.h"

#include <algorithm>
#include <cstdio>
#include <tuple>

#include "input/diagnostic.h"
#include "input/field_file.h"
#include "pages.h"
#include "report/csv_report.h"
#include "report/json_report.h"
#include "report/output.h"
#include "report/text_report.h"
#include "report/working.h"
#include "units/reading.h"

namespace soilhold::cli {

namespace {

/// The limit of --at-most for one field, t/(ha yr).
std::optional<double> limit_of(const loss::FieldEstimate& field, const Options& options) {
    if (options.at_most == "T") return field.tolerance;
    return units::read(units::Kind::soil_loss, options.at_most).si;
}

void check_limit_is_readable(const Options& options) {
    if (options.at_most.empty() || options.at_most == "T") return;
    try {
        units::read(units::Kind::soil_loss, options.at_most);
    } catch (const units::ReadingError& error) {
        input::Diagnostic mistake;
        mistake.place.file = "--at-most";
        mistake.code = error.code;
        mistake.text = error.what();
        throw input::InputError(std::vector<input::Diagnostic>(1, mistake));
    }
}

std::string rendered(const change::Comparison& comparison, const Options& options, const char* command) {
    if (options.json) return report::json_report(comparison, command, SOILHOLD_VERSION, options.explain);
    if (options.csv) return report::csv_report(comparison, options.units);
    const std::string text = report::text_report(comparison, options.units);
    return options.explain ? text + report::working_text(comparison) : text;
}

Exit verdict(const change::Comparison& comparison, const Options& options) {
    Exit exit = Exit::done;
    if (options.at_most.empty()) return exit;
    for (const loss::FieldEstimate& field : comparison.fields) {
        const std::optional<double> limit = limit_of(field, options);
        if (!limit) {
            std::fprintf(stderr, "%s: the field file gives no T, so --at-most T can't be judged\n",
                         field.field.name.c_str());
            exit = Exit::limit_not_met;
        } else if (field.loss.central > *limit) {
            std::fprintf(stderr, "%s loses more than --at-most %s\n", field.field.name.c_str(),
                         options.at_most.c_str());
            exit = Exit::limit_not_met;
        }
    }
    return exit;
}

}  // namespace

std::vector<loss::Field> read_fields(const Options& options) {
    check_limit_is_readable(options);
    std::vector<loss::Field> fields;
    std::vector<input::Diagnostic> mistakes;
    for (const std::string& file : options.files) {
        try {
            for (loss::Field& field : input::read_field_file(file)) fields.push_back(std::move(field));
        } catch (const input::InputError& error) {
            std::vector<input::Diagnostic> found = error.diagnostics;
            std::stable_sort(found.begin(), found.end(), [](const input::Diagnostic& a, const input::Diagnostic& b) {
                return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
            });
            mistakes.insert(mistakes.end(), found.begin(), found.end());
        }
    }
    if (!mistakes.empty()) throw input::InputError(std::move(mistakes));
    return fields;
}

Exit deliver(const change::Comparison& comparison, const Options& options, const char* command) {
    const std::string text = rendered(comparison, options, command);
    if (!options.out.empty()) {
        const std::vector<report::Output> outputs = pages(comparison, options);
        report::write_all(outputs);
        if (!options.quiet)
            for (const report::Output& output : outputs) std::fprintf(stderr, "wrote %s\n", output.path.c_str());
    }
    std::fputs(text.c_str(), stdout);
    return verdict(comparison, options);
}

}  // namespace soilhold::cli
