#include "soiltest/mean_weight_diameter.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::soiltest {

DiameterClass diameter_class(double mwd_mm) {
    if (!(mwd_mm >= 0.0) || !std::isfinite(mwd_mm))
        throw std::invalid_argument(fmt::format("mean weight diameter {} mm: a size from 0 mm on is wanted", mwd_mm));
    const source::Table& classes = source::table("mwd-classes");
    const source::Row* found = nullptr;
    for (const source::Row& row : classes.rows)
        if (mwd_mm >= row.number("least_mm")) found = &row;
    if (!found) throw std::logic_error("data/reference/mwd-classes.csv does not begin at 0");
    return {found->text("stability"), found->text("crusting"), found->text("risk")};
}

}  // namespace soilhold::soiltest
