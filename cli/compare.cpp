// soilhold compare: fields side by side, each with each later one.
#include "change/comparison.h"
#include "input/diagnostic.h"
#include "options.h"
#include "result.h"

namespace soilhold::cli {

Exit compare(const Options& options) {
    const std::vector<loss::Field> fields = read_fields(options);
    if (fields.size() < 2) {
        input::Diagnostic mistake;
        mistake.place.file = options.files.front();
        mistake.code = "one-field";
        mistake.text =
            "compare needs at least two fields, and here is one. Name a second file, or use 'soilhold estimate' for "
            "this field alone";
        throw input::InputError(std::vector<input::Diagnostic>(1, mistake));
    }
    return deliver(change::compare(fields, {options.draws, options.seed}), options, "compare");
}

}  // namespace soilhold::cli
