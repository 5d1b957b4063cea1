#include "factors/contouring.h"

#include <algorithm>
#include <cmath>

#include "source/reference_table.h"
#include "units/unit.h"

namespace soilhold::factors {

std::optional<Contouring> contouring(double gradient) {
    const double percent = 100.0 * gradient + 1e-9;
    if (percent < 0.5) return std::nullopt;
    for (const source::Row& row : source::table("contouring").rows)
        if (percent < row.number("below_pct"))
            return Contouring{row.number("P"), row.number("length_limit_ft") * units::metre_per_foot,
                              row.text("class_pct")};
    return std::nullopt;
}

double off_grade_contour(double P_on_grade, double row_grade, double land_gradient) {
    if (land_gradient <= 0) return 1.0;
    return P_on_grade + (1.0 - P_on_grade) * std::sqrt(std::clamp(row_grade / land_gradient, 0.0, 1.0));
}

}  // namespace soilhold::factors
