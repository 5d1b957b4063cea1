#include "factors/woodland.h"

#include <stdexcept>

#include "factors/slope_class.h"
#include "source/reference_table.h"
#include "source/row_origin.h"

namespace soilhold::factors {

namespace {

void need_covers(double a, double b) {
    if (!(a >= 0 && a <= 100 && b >= 0 && b <= 100)) throw std::invalid_argument("cover lies from 0 to 100 %");
}

bool within(const ClassLimits& limits, double value) { return value >= limits.from && value <= limits.to; }

std::string band_of(const source::Row& row) {
    return "canopy " + row.text("canopy_pct") + " %, duff " + row.text("duff_pct") + " %";
}

}  // namespace

std::string woodland_bands() {
    std::string bands;
    for (const source::Row& row : source::table("woodland").rows) bands += (bands.empty() ? "" : "; ") + band_of(row);
    return bands;
}

std::optional<CoverRange> woodland_cover_factor(double canopy_pct, double duff_pct) {
    need_covers(canopy_pct, duff_pct);
    for (const source::Row& row : source::table("woodland").rows)
        if (within(class_limits(row.text("canopy_pct")), canopy_pct) &&
            within(class_limits(row.text("duff_pct")), duff_pct))
            return CoverRange{row.number("C_low"), row.number("C_high"), band_of(row),
                              source::row_origin("woodland-537", row)};
    return std::nullopt;
}

std::optional<double> undisturbed_forest_cover_factor(double canopy_pct, double litter_pct) {
    need_covers(canopy_pct, litter_pct);
    for (const source::Row& row : source::table("undisturbed-forest").rows)
        if (canopy_pct >= row.number("canopy_pct") && litter_pct >= row.number("litter_pct")) return row.number("C");
    return std::nullopt;
}

}  // namespace soilhold::factors
