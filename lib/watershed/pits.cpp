#include "watershed/pits.h"

#include <fmt/format.h>

#include <algorithm>

#include "raster/raster_error.h"

namespace soilhold::watershed {

void check_cuts(const std::string& path, const PitRules& rules, double cell_m) {
    if (!rules.cuts) return;
    const auto most = static_cast<double>(terrain::most_reach);
    if (rules.cuts->longest_m / cell_m < most + 1) return;
    throw raster::RasterError(
        path, "cut-too-long",
        fmt::format(
            "A cut of {:.4g} m is {:.0f} of its cells of {:.3g} m long, and cuts are searched over at most {:.0f} "
            "cells. Give a {} of at most {:.4g} m, or wider cells.",
            rules.cuts->longest_m, rules.cuts->longest_m / cell_m, cell_m, most, rules.longest, most * cell_m));
}

std::string limits_in_words(const terrain::CutLimits& limits) {
    return fmt::format("up to {:.4g} m long and {:.3g} m deep", limits.longest_m, limits.deepest_m);
}

void add_pit_cautions(const std::string& path, const PitRules& rules, const PitReport& pits, double cell_m,
                      std::int64_t cells, source::Remarks& remarks) {
    const auto caution = [&](const char* code, const std::string& text) {
        remarks.push_back({source::Weight::caution, code, text, path});
    };
    if (rules.cuts && rules.cuts->longest_m < 2 * cell_m)
        caution("cut-too-short", fmt::format("A cut goes through one cell at least and ends in the next: with cells of "
                                             "{:.3g} m a {} of {:.3g} m cuts nothing. Give {:.3g} m or more.",
                                             cell_m, rules.longest, rules.cuts->longest_m, 2 * cell_m));
    if (pits.filled.deepest_m > 5) {
        if (rules.cuts)
            caution("deep-pit",
                    fmt::format("A pit was filled {:.3g} m deep, for no cut {} drains it. Is it a quarry? Or "
                                "does a higher or wider bank dam its stream: then give a larger {} or {}.",
                                pits.filled.deepest_m, limits_in_words(*rules.cuts), rules.deepest, rules.longest));
        else
            caution("deep-pit", fmt::format("A pit was filled {:.3g} m deep. Is it a quarry? Or does a road or bridge "
                                            "stand across the stream that drains it: then {} cuts it through.",
                                            pits.filled.deepest_m, rules.breach));
    }
    const double raised =
        static_cast<double>(pits.filled.cells_raised) / static_cast<double>(std::max<std::int64_t>(1, cells));
    if (raised > 0.1)
        caution("much-filled", fmt::format("{:.0f} % of the ground lies in pits that were filled: water is sent over "
                                           "them as over level ground.",
                                           100 * raised));
}

}  // namespace soilhold::watershed
