#include "report/cautions.h"

namespace soilhold::report {

const std::vector<std::string>& cautions() {
    static const std::vector<std::string> list = {
        "This counts soil washed off a slope by rain in sheets and small rills. It leaves out gullies, wind, snowmelt, "
        "furrow irrigation and stream banks, which can be as large.",
        "It is an average of many years. One year, or one storm, can be many times more or almost nothing.",
        "It is soil moved on the slope, not soil in the creek.",
        "It is a planning aid to talk over. It is not a conservation plan, a design, an appraisal or a ruling on any "
        "program.",
        "Where your local conservation office or a licensed planner has other values, theirs hold.",
    };
    return list;
}

}  // namespace soilhold::report
