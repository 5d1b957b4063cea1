// soilhold factor: one quantity worked out or looked up alone, a whole table of them, or the list of what there is.
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>

#include "factors/quantities.h"
#include "input/diagnostic.h"
#include "options.h"
#include "report/erodibility_report.h"
#include "report/factor_report.h"

namespace soilhold::cli {

namespace {

[[noreturn]] void refuse(const std::string& where, const std::string& code, const std::string& text) {
    input::Diagnostic mistake;
    mistake.place.file = where;
    mistake.code = code;
    mistake.text = text;
    throw input::InputError(std::vector<input::Diagnostic>(1, mistake));
}

std::string text_of(const std::string& path) {
    std::stringstream text;
    if (path == "-") {
        text << std::cin.rdbuf();
    } else {
        std::ifstream stream(path, std::ios::binary);
        if (!stream) refuse(path, "no-file", "There is no such file, or it can't be read");
        text << stream.rdbuf();
    }
    return text.str();
}

Exit whole_table(const Options& options) {
    report::RowTable table;
    try {
        table = report::worked_rows(text_of(options.table));
    } catch (const std::invalid_argument& error) {
        refuse(options.table, "row-table", error.what());
    }
    const std::string text = options.json  ? report::rows_json(table)
                             : options.csv ? report::rows_csv(table)
                                           : report::rows_text(table);
    std::fputs(text.c_str(), stdout);
    return table.differing == 0 && table.refused == 0 ? Exit::done : Exit::limit_not_met;
}

std::string inputs_of(const Options& options) {
    std::string inputs;
    for (std::size_t i = 1; i < options.words.size(); ++i) inputs += (inputs.empty() ? "" : ";") + options.words[i];
    return inputs;
}

Exit all_methods(const Options& options) {
    if (options.words.front() != "erodibility")
        refuse("factor --all", "factor",
               "Only 'erodibility' has several methods side by side: soilhold factor erodibility --all");
    try {
        const auto results =
            factors::erodibility_by_all_methods(report::soil_from(factors::Inputs(inputs_of(options))));
        std::fputs((options.json ? report::methods_json(results) : report::methods_text(results)).c_str(), stdout);
    } catch (const std::invalid_argument& error) {
        refuse("factor erodibility", "factor", error.what());
    }
    return Exit::done;
}

Exit one(const Options& options) {
    const std::string inputs = inputs_of(options);
    const std::string& name = options.words.front();
    try {
        const factors::Quantity& quantity = factors::quantity(name);
        const factors::Answer answer = factors::answer(name, inputs);
        std::fputs(
            (options.json ? report::answer_json(quantity, answer) : report::answer_text(quantity, answer)).c_str(),
            stdout);
    } catch (const std::invalid_argument& error) {
        refuse("factor " + name, "factor", error.what());
    }
    return Exit::done;
}

}  // namespace

Exit factor(const Options& options) {
    if (options.list) {
        std::fputs((options.json ? report::quantities_json() : report::quantities_text()).c_str(), stdout);
        return Exit::done;
    }
    if (!options.table.empty()) return whole_table(options);
    if (options.words.empty()) refuse("factor", "arguments", "Name a quantity, or use --list or --table FILE");
    return options.all ? all_methods(options) : one(options);
}

}  // namespace soilhold::cli
