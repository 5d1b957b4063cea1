#include "factors/pasture_range.h"

#include <optional>
#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::factors {

namespace {

bool of_ground(const source::Row& row, const PastureGround& ground) {
    return row.number("fall_height_m") == ground.fall_height_m && row.number("canopy_pct") == ground.canopy_pct &&
           row.text("cover_type") == (ground.cover == GroundCover::grass ? "G" : "W");
}

/// The cell as the print of 1978 has it, or none where it did not change.
std::optional<double> changed_in_1978(const PastureGround& ground, double cover_pct) {
    for (const source::Row& row : source::table("pasture-range-1978").rows)
        if (of_ground(row, ground) && row.number("ground_cover_pct") == cover_pct) return row.number("C");
    return std::nullopt;
}

void need_cover(double pct) {
    if (!(pct >= 0 && pct <= 100)) throw std::invalid_argument("cover lies from 0 to 100 %");
}

double in_table(const PastureGround& ground, bool print_of_1978) {
    need_cover(ground.ground_cover_pct);
    std::optional<double> from, C_from;
    for (const source::Row& row : source::table("pasture-range").rows) {
        if (!of_ground(row, ground)) continue;
        const double to = row.number("ground_cover_pct");
        double C_to = row.number("C");
        if (print_of_1978) C_to = changed_in_1978(ground, to).value_or(C_to);
        if (from && ground.ground_cover_pct < to)
            return *C_from + (C_to - *C_from) * (ground.ground_cover_pct - *from) / (to - *from);
        from = to;
        C_from = C_to;
    }
    if (!C_from)
        throw std::invalid_argument("the table has canopies of 25, 50 and 75 % that fall from 0.5, 2 or 4 m, or none");
    return *C_from;
}

}  // namespace

double pasture_cover_factor(const PastureGround& ground) { return in_table(ground, false); }

double pasture_cover_factor_1978(const PastureGround& ground) { return in_table(ground, true); }

double grass_cover_curve(double cover_pct) {
    need_cover(cover_pct);
    double from = 0, C_from = 1;
    for (const source::Row& row : source::table("pasture-cover-curve").rows) {
        const double to = row.number("cover_pct"), C_to = row.number("C");
        if (cover_pct == to) return C_to;
        if (cover_pct < to) return C_from + (C_to - C_from) * (cover_pct - from) / (to - from);
        from = to;
        C_from = C_to;
    }
    return C_from;
}

}  // namespace soilhold::factors
