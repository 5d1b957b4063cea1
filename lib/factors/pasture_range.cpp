#include "factors/pasture_range.h"

#include <optional>
#include <stdexcept>

#include "source/reference_table.h"
#include "source/row_origin.h"

namespace soilhold::factors {

namespace {

bool of_ground(const source::Row& row, const PastureGround& ground) {
    return row.number("fall_height_m") == ground.fall_height_m && row.number("canopy_pct") == ground.canopy_pct &&
           row.text("cover_type") == (ground.cover == GroundCover::grass ? "G" : "W");
}

/// The cell as the print of 1978 has it, or none where it did not change.
std::optional<PastureCell> changed_in_1978(const PastureGround& ground, double cover_pct) {
    for (const source::Row& row : source::table("pasture-range-1978").rows)
        if (of_ground(row, ground) && row.number("ground_cover_pct") == cover_pct)
            return PastureCell{cover_pct, row.number("C"), source::row_origin("pasture-537", row)};
    return std::nullopt;
}

void need_cover(double pct) {
    if (!(pct >= 0 && pct <= 100)) throw std::invalid_argument("cover lies from 0 to 100 %");
}

}  // namespace

std::pair<PastureCell, PastureCell> pasture_cells(const PastureGround& ground, bool print_of_1978) {
    need_cover(ground.ground_cover_pct);
    std::optional<PastureCell> from;
    for (const source::Row& row : source::table("pasture-range").rows) {
        if (!of_ground(row, ground)) continue;
        PastureCell to{row.number("ground_cover_pct"), row.number("C"), source::row_origin("pasture-copy", row)};
        if (print_of_1978)
            if (auto changed = changed_in_1978(ground, to.ground_cover_pct)) to = *std::move(changed);
        if (from && from->ground_cover_pct == ground.ground_cover_pct) return {*from, *from};
        if (from && ground.ground_cover_pct < to.ground_cover_pct) return {*from, to};
        from = to;
    }
    if (!from)
        throw std::invalid_argument("the table has canopies of 25, 50 and 75 % that fall from 0.5, 2 or 4 m, or none");
    return {*from, *from};
}

double between_cells(const PastureCell& from, const PastureCell& to, double ground_cover_pct) {
    if (from.ground_cover_pct == to.ground_cover_pct) return from.C;
    return from.C +
           (to.C - from.C) * (ground_cover_pct - from.ground_cover_pct) / (to.ground_cover_pct - from.ground_cover_pct);
}

double pasture_cover_factor(const PastureGround& ground) {
    const auto [from, to] = pasture_cells(ground, false);
    return between_cells(from, to, ground.ground_cover_pct);
}

double pasture_cover_factor_1978(const PastureGround& ground) {
    const auto [from, to] = pasture_cells(ground, true);
    return between_cells(from, to, ground.ground_cover_pct);
}

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
