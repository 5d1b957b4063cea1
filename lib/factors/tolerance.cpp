#include "factors/tolerance.h"

#include <stdexcept>
#include <string>

#include "source/reference_table.h"

namespace soilhold::factors {

double tolerance_by_depth_us(std::string_view layer, ClassLimits depth_cm) {
    if (!(depth_cm.from >= 0)) throw std::invalid_argument("a depth must not be negative");
    bool known = false;
    for (const source::Row& row : source::table("tolerance-by-depth").rows) {
        if (row.text("layer") != layer) continue;
        known = true;
        const bool open = row.empty("to_cm");
        const bool from_here = depth_cm.from >= row.number("from_cm");
        const bool to_here = open || depth_cm.to < row.number("to_cm") ||
                             (depth_cm.to == row.number("to_cm") && depth_cm.from < depth_cm.to);
        if (from_here && to_here) return row.number("T_us");
    }
    if (known) throw std::invalid_argument("that range of depths lies in two classes of T");
    throw std::invalid_argument("T by depth knows no layer '" + std::string(layer) + "'");
}

double land_erodibility_index(double R, double K, double LS, double T) {
    if (!(R >= 0 && K >= 0 && LS >= 0)) throw std::invalid_argument("R, K and LS must not be negative");
    if (!(T > 0)) throw std::invalid_argument("tolerance T must be above 0");
    return R * K * LS / T;
}

}  // namespace soilhold::factors
