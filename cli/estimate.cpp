// soilhold estimate: the yearly loss of each field.
#include "change/comparison.h"
#include "options.h"
#include "result.h"

namespace soilhold::cli {

Exit estimate(const Options& options) {
    return deliver(change::estimate(read_fields(options), {options.draws, options.seed}), options, "estimate");
}

}  // namespace soilhold::cli
