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
    const auto given = [&](const char* symbol, const char* words, double value, const char* unit) {
        steps.push_back({symbol, std::string(words) + ", average of the year", "", "", value, unit, parts.origin});
    };
    if (parts.roughness_mm)
        given("Ru", "roughness of the ground", roughness_mm / 25.4, "in");
    else
        steps.push_back({"Ru", "roughness, that of the unit plot", "", "", roughness_mm / 25.4, "in", handbook});
    take({"SR", "surface roughness", "exp(-0.66 (Ru - 0.24))", "exp(-0.66 x (" + Ru + " - 0.24))",
          surface_roughness_subfactor(roughness_mm), "1", handbook});
    if (parts.surface_cover_fraction) {
        const double cover = *parts.surface_cover_fraction, b = parts.residue_effectiveness_b;
        const std::string percent = in_working(100 * cover);
        given("Sp", "residue, stones and plants on the ground", 100 * cover, "%");
        steps.push_back({"b", "how well they protect, of usual cropland", "", "", b, "per %", handbook});
        take({"SC", "surface cover", "exp(-b Sp (0.24 / Ru)^0.08)",
              "exp(-" + in_working(b) + " x " + percent + " x (0.24 / " + Ru + ")^0.08)",
              surface_cover_subfactor(cover, b, roughness_mm), "1", handbook});
    }
    if (parts.canopy_fraction) {
        // Without it the canopy would count as lying on the ground, which protects best.
        if (!parts.fall_height_m) throw std::invalid_argument("a canopy needs the height from which drops fall");
        const double Fc = *parts.canopy_fraction, H = *parts.fall_height_m / units::metre_per_foot;
        given("Fc", "share under the canopy", Fc, "1");
        given("H", "how far drops fall from it", H, "ft");
        take({"CC", "canopy", "1 - Fc exp(-0.1 H)", "1 - " + in_working(Fc) + " x exp(-0.1 x " + in_working(H) + ")",
              canopy_subfactor(Fc, *parts.fall_height_m), "1", handbook});
    }
    // Prior land use as given, or the part of it that years without tillage alone make.
    if (parts.prior_land_use)
        take({"PLU", "prior land use, as given", "", "", *parts.prior_land_use, "1", parts.origin});
    else if (parts.years_undisturbed) {
        steps.push_back({"years", "without tillage", "", "", *parts.years_undisturbed, "yr", parts.origin});
        take({"PLU", "consolidation since, over up to 7 years", "0.45^(years / 7)",
              "0.45^(min(7, " + in_working(*parts.years_undisturbed) + ") / 7)",
              consolidation_subfactor(*parts.years_undisturbed), "1", handbook});
    }
    steps.push_back({"C", C < least_C ? "their product, held at 0.0001" : "their product; what is left out counts as 1",
                     symbols, C < least_C ? "max(0.0001, " + product + ")" : product, C, "1", handbook});
    return steps;
}

}  // namespace

spread::Uncertain cover_management(const CoverDescription& cover, const std::optional<GroundSlope>& slope) {
    if (cover.factor) {
        const bool low = cover.factor->value < 0.1;
        return spread::with_spread(*cover.factor, low ? "cover-given-low" : "cover-given");
    }
    if (cover.table) return cover_of_table(*cover.table, slope);
    if (!cover.parts) throw std::invalid_argument("no cover factor, no parts of it and no table are described");
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
