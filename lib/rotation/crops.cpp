#include "rotation/crops.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "source/reference_table.h"
#include "source/row_origin.h"
#include "units/unit.h"

namespace soilhold::rotation {

namespace {

Crop read(const source::Row& row) {
    using units::kg_ha_per_lb_acre, units::metre_per_foot;
    const auto number = [&](const char* column) { return row.empty(column) ? 0.0 : row.number(column); };
    Crop crop;
    crop.name = row.text("crop");
    crop.residue = row.text("residue");
    crop.kind = row.text("kind");
    crop.kg_per_bushel = number("lb_per_bushel") * units::kilogram_per_pound;
    crop.usual_yield_kg_ha = number("usual_yield_lb_acre") * kg_ha_per_lb_acre;
    crop.residue_per_yield = number("residue_per_yield");
    crop.roots_kg_ha = number("roots_lb_acre_in") * 4.0 * kg_ha_per_lb_acre;
    crop.canopy = number("canopy_pct") / 100.0;
    crop.height_m = number("height_ft") * metre_per_foot;
    crop.fall_height_m = number("fall_height_ft") * metre_per_foot;
    crop.base_C = number("base_C");
    crop.warmth_emerged = number("sum_emerged");
    crop.warmth_full = number("sum_full");
    crop.warmth_mature = number("sum_mature");
    crop.canopy_at_end = number("canopy_at_end_pct") / 100.0;
    crop.leaves_dropped = number("leaf_drop_pct") / 100.0;
    crop.top_growth_kg_ha = number("top_growth_lb_acre") * kg_ha_per_lb_acre;
    crop.living_cover = number("living_cover_pct") / 100.0;
    crop.litter_kg_ha_year = number("litter_lb_acre_yr") * kg_ha_per_lb_acre;
    crop.winter_killed = !row.empty("dies_below_C");
    crop.dies_below_C = number("dies_below_C");
    crop.rests = !row.empty("rests_below_C");
    crop.rests_below_C = number("rests_below_C");
    crop.usual_planted = static_cast<int>(number("usual_planted"));
    crop.usual_ended = static_cast<int>(number("usual_ended"));
    crop.origin = source::row_origin("crop-rows", row);
    return crop;
}

std::size_t changes_between(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            diagonal = above;
        }
    }
    return row[b.size()];
}

}  // namespace

const std::vector<Crop>& all_crops() {
    static const std::vector<Crop> crops = [] {
        std::vector<Crop> read_in;
        for (const source::Row& row : source::table("crops").rows) read_in.push_back(read(row));
        return read_in;
    }();
    return crops;
}

const Crop& crop_of(std::string_view name) {
    std::vector<std::string> names;
    for (const Crop& crop : all_crops()) {
        if (crop.name == name) return crop;
        names.push_back(crop.name);
    }
    throw std::invalid_argument("no crop is called '" + std::string(name) + "'; the nearest is '" +
                                nearest_name(name, names) + "'");
}

std::string nearest_name(std::string_view name, const std::vector<std::string>& names) {
    if (names.empty()) return {};
    return *std::min_element(names.begin(), names.end(), [&](const std::string& a, const std::string& b) {
        return changes_between(name, a) < changes_between(name, b);
    });
}

}  // namespace soilhold::rotation
