#include "rotation/roughness.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/cover_subfactors.h"

namespace soilhold::rotation {

namespace {

void need_share(double disturbed) {
    if (!(disturbed >= 0 && disturbed <= 1)) throw std::invalid_argument("the surface moved is a share from 0 to 1");
}

}  // namespace

double roughness_after_mm(double left_by_tool_mm, double before_mm, double disturbed) {
    need_share(disturbed);
    return disturbed * left_by_tool_mm + (1.0 - disturbed) * before_mm;
}

double years_of_consolidation(double consolidation) {
    return 7.0 * std::log(std::clamp(consolidation, 0.45, 1.0)) / std::log(0.45);
}

double years_at_rest_after(double years, double disturbed) {
    need_share(disturbed);
    if (disturbed == 0.0) return years;
    return years_of_consolidation(disturbed + (1.0 - disturbed) * factors::consolidation_subfactor(years));
}

}  // namespace soilhold::rotation
