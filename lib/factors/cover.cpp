#include "factors/cover.h"

#include <algorithm>
#include <stdexcept>

#include "factors/cover_subfactors.h"

namespace soilhold::factors {

namespace {

// A product of parts can reach 0 (a full canopy on the ground), which no ground has; the least C of handbook tables is
// 0.0001.
constexpr double least_C = 0.0001;

double product_of(const CoverParts& parts) {
    const double roughness_mm = parts.roughness_mm.value_or(unit_plot_roughness_mm);
    double C = surface_roughness_subfactor(roughness_mm);
    if (parts.surface_cover_fraction)
        C *= surface_cover_subfactor(*parts.surface_cover_fraction, parts.residue_effectiveness_b, roughness_mm);
    if (parts.canopy_fraction) {
        // Without it the canopy would count as lying on the ground, which protects best.
        if (!parts.fall_height_m) throw std::invalid_argument("a canopy needs the height from which drops fall");
        C *= canopy_subfactor(*parts.canopy_fraction, *parts.fall_height_m);
    }
    // Prior land use as given, or the part of it that years without tillage alone make.
    if (parts.prior_land_use)
        C *= *parts.prior_land_use;
    else if (parts.years_undisturbed)
        C *= consolidation_subfactor(*parts.years_undisturbed);
    return C;
}

}  // namespace

spread::Uncertain cover_management(const CoverDescription& cover) {
    if (cover.factor) {
        const bool low = cover.factor->value < 0.1;
        return spread::with_spread(*cover.factor, low ? "cover-given-low" : "cover-given");
    }
    if (!cover.parts) throw std::invalid_argument("no cover factor and no parts of it are described");
    spread::Stated stated;
    const double product = product_of(*cover.parts);
    stated.value = std::max(product, least_C);
    stated.origin = source::origin_of("cover-parts");
    stated.origin.from += "; parts: " + cover.parts->origin.from;
    spread::Uncertain result = spread::with_spread(stated, "cover-parts");
    if (product < least_C)
        result.remarks.push_back(
            {source::Weight::caution, "cover-least", "The parts of C multiply to less than 0.0001; C is held there."});
    result.remarks.push_back(
        {source::Weight::note, "cover-one-average",
         "C comes from one average of the year for each part; what stands when the heavy rain falls "
         "counts most, and a calendar of the year would do better."});
    return result;
}

}  // namespace soilhold::factors
