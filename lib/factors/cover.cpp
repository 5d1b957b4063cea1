#include "factors/cover.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <utility>

#include "factors/cover_subfactors.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

// A product of parts can reach 0 (a full canopy on the ground), which no ground has; the least C of handbook tables is
// 0.0001.
constexpr double least_C = 0.0001;

using source::in_working;

/// The subfactors one by one; the last step is their product.
source::Steps steps_of(const CoverParts& parts) {
    const double roughness_mm = parts.roughness_mm.value_or(unit_plot_roughness_mm);
    const source::Origin handbook = source::origin_of("cover-parts");
    const std::string Ru = in_working(roughness_mm / 25.4);
    source::Steps steps;
    std::string symbols, product;
    double C = 1;
    const auto take = [&](source::Step step) {
        symbols += (symbols.empty() ? "" : " ") + step.symbol;
        product += (product.empty() ? "" : " x ") + in_working(step.value);
        C *= step.value;
        steps.push_back(std::move(step));
    };
    take({"SR", "roughness; Ru = " + Ru + " in" + (parts.roughness_mm ? "" : ", the unit plot's"),
          "exp(-0.66 (Ru - 0.24))", "exp(-0.66 x (" + Ru + " - 0.24))", surface_roughness_subfactor(roughness_mm), "1",
          handbook});
    if (parts.surface_cover_fraction) {
        const double cover = *parts.surface_cover_fraction, b = parts.residue_effectiveness_b;
        const std::string percent = in_working(100 * cover);
        take({"SC", "cover on the ground; b = " + in_working(b) + ", Sp = " + percent + " %",
              "exp(-b Sp (0.24 / Ru)^0.08)", "exp(-" + in_working(b) + " x " + percent + " x (0.24 / " + Ru + ")^0.08)",
              surface_cover_subfactor(cover, b, roughness_mm), "1", handbook});
    }
    if (parts.canopy_fraction) {
        // Without it the canopy would count as lying on the ground, which protects best.
        if (!parts.fall_height_m) throw std::invalid_argument("a canopy needs the height from which drops fall");
        const std::string Fc = in_working(*parts.canopy_fraction);
        const std::string H = in_working(*parts.fall_height_m / units::metre_per_foot);
        take({"CC", "canopy; Fc = " + Fc + ", drops fall H = " + H + " ft", "1 - Fc exp(-0.1 H)",
              "1 - " + Fc + " x exp(-0.1 x " + H + ")", canopy_subfactor(*parts.canopy_fraction, *parts.fall_height_m),
              "1", handbook});
    }
    // Prior land use as given, or the part of it that years without tillage alone make.
    if (parts.prior_land_use)
        take({"PLU", "prior land use, as given", "", "", *parts.prior_land_use, "1", parts.origin});
    else if (parts.years_undisturbed)
        take({"PLU", "years without tillage, up to 7", "0.45^(years / 7)",
              "0.45^(min(7, " + in_working(*parts.years_undisturbed) + ") / 7)",
              consolidation_subfactor(*parts.years_undisturbed), "1", handbook});
    steps.push_back({"C", C < least_C ? "their product, held at 0.0001" : "their product; what is left out counts as 1",
                     symbols, C < least_C ? "max(0.0001, " + product + ")" : product, C, "1", handbook});
    return steps;
}

}  // namespace

spread::Uncertain cover_management(const CoverDescription& cover) {
    if (cover.factor) {
        const bool low = cover.factor->value < 0.1;
        return spread::with_spread(*cover.factor, low ? "cover-given-low" : "cover-given");
    }
    if (!cover.parts) throw std::invalid_argument("no cover factor and no parts of it are described");
    spread::Stated stated;
    source::Steps steps = steps_of(*cover.parts);
    const double product = steps.back().value;
    stated.value = steps.back().value = std::max(product, least_C);
    stated.origin = source::origin_of("cover-parts");
    stated.origin.from += "; parts: " + cover.parts->origin.from;
    spread::Uncertain result = spread::with_spread(stated, "cover-parts", std::move(steps));
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
