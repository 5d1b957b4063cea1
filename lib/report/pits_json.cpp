#include "report/pits_json.h"

namespace soilhold::report {

nlohmann::ordered_json filled_json(const terrain::FillReport& filled) {
    return {{"pits", filled.pits},
            {"cells_raised", filled.cells_raised},
            {"deepest_m", filled.deepest_m},
            {"volume_m3", filled.volume_m3}};
}

nlohmann::ordered_json cut_json(const terrain::CutLimits& limits, const terrain::BreachReport& cut) {
    return {{"longest_cut_m", limits.longest_m}, {"deepest_cut_m", limits.deepest_m},  {"pits", cut.cuts},
            {"pits_left", cut.pits_left},        {"cells_lowered", cut.cells_lowered}, {"longest_m", cut.longest_m},
            {"deepest_m", cut.deepest_m},        {"volume_m3", cut.volume_m3}};
}

}  // namespace soilhold::report
