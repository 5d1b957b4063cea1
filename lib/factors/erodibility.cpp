#include "factors/erodibility.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "factors/erodibility_inputs.h"
#include "factors/erodibility_working.h"
#include "factors/rock_fragments.h"
#include "factors/texture_carbon.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;
using units::erodibility_si_per_us;

// The least K of the survey's classes (read in the National Soil Survey Handbook 618.59): a product needs some K.
constexpr double least_erodibility_us = 0.02;
// As default-spreads.csv has them: bounds are no narrower than the doubt of the equation itself.
constexpr double nomograph_low = 0.8, nomograph_high = 1.25;
constexpr double most_silt_and_very_fine_sand_pct = 70.0;

/// A K on its way: its value, whose it is, and how it came about.
struct Worked {
    spread::Stated stated;
    std::string_view spread_kind;
    source::Steps steps{};
    source::Remarks remarks{};
    std::optional<spread::Range> bounds{};  ///< of an input that is missing; the range is no narrower
};

/// @param rough  a method that fits less well than the file's reader may think
source::Remark method_remark(const MethodResult& result, const std::string& why, bool rough) {
    return {rough ? source::Weight::caution : source::Weight::note, "erodibility-method",
            fmt::format("K comes from the {}: {}. {}", result.name, why, result.range_note)};
}

std::string permeability_words(const SoilDescription& soil) {
    return fmt::format("Permeability code {} is that of a {} (from memory, check the source).", *soil.permeability_code,
                       soil.texture);
}

/// All inputs are there: the equation, held at the least K and cautioned beyond its range.
Worked by_nomograph(const SoilDescription& soil, bool own_permeability, const std::string& why) {
    const NomographSoil nomograph{*soil.silt_pct,           *soil.very_fine_sand_pct, *soil.clay_pct,
                                  *soil.organic_matter_pct, *soil.structure_code,     *soil.permeability_code};
    const double sum_us = nomograph_erodibility_us(nomograph);
    if (soil.method == ErodibilityMethod::nomograph) {
        const double fine = nomograph.silt_pct + nomograph.very_fine_sand_pct;
        if (fine > most_silt_and_very_fine_sand_pct)
            throw std::invalid_argument(fmt::format(
                "Silt and very fine sand make {:.0f} %; the equation holds up to 70 % and overstates above", fine));
        if (!(sum_us > 0)) throw std::invalid_argument("The equation falls below 0 for this soil");
    }
    Worked worked;
    worked.spread_kind = "erodibility-nomograph";
    worked.stated.value = std::max(least_erodibility_us, sum_us) * erodibility_si_per_us;
    worked.stated.origin = source::origin_of("nomograph");
    worked.stated.origin.from += "; texture: " + soil.texture_origin.from;
    worked.steps = nomograph_steps(nomograph, sum_us, least_erodibility_us, soil.texture_origin);
    worked.remarks = nomograph_remarks(nomograph);
    if (!own_permeability) {
        worked.stated.origin.standing = source::Standing::from_memory;
        worked.remarks.push_back({source::Weight::note, "permeability-of-texture", permeability_words(soil)});
    }
    worked.remarks.push_back(method_remark(result_of({}, ErodibilityMethod::nomograph), why, false));
    return worked;
}

/// Very fine sand is missing: a typical share of the sand, and K without and with all of it as its range.
Worked by_bounded_nomograph(const ErodibilityInputs& inputs, const MethodResult& result, const SoilDescription& soil,
                            const std::string& why) {
    NomographSoil nomograph{*inputs.silt_pct,       typical_very_fine_share * *inputs.sand_pct,
                            *inputs.clay_pct,       *inputs.organic_matter_pct,
                            *inputs.structure_code, *inputs.permeability_code};
    Worked worked;
    worked.spread_kind = "erodibility-nomograph";
    const double K_us = std::max(least_erodibility_us, *result.us);
    worked.stated.value = K_us * erodibility_si_per_us;
    worked.stated.origin = result.origin;
    worked.stated.origin.from += "; texture: " + soil.texture_origin.from;
    worked.bounds = spread::Range{std::max(least_erodibility_us, result.bounds_us->low) * erodibility_si_per_us,
                                  std::max(least_erodibility_us, result.bounds_us->high) * erodibility_si_per_us};
    const source::Origin ours = source::origin_of("very-fine-sand");
    worked.steps.push_back({"vfs", "very fine sand, taken as a share of the sand", "0.3 sand",
                            "0.3 x " + in_working(*inputs.sand_pct), nomograph.very_fine_sand_pct, "%", ours});
    for (source::Step& step : nomograph_steps(nomograph, *result.us, least_erodibility_us, soil.texture_origin))
        worked.steps.push_back(std::move(step));
    worked.remarks = result.remarks;
    worked.remarks.push_back(
        method_remark(result,
                      why + ", and very fine sand (0.05 to 0.1 mm) was not measured. A lab sheet that has it, or the "
                            "survey's K, narrows the range",
                      false));
    return worked;
}

Worked by_other(ErodibilityMethod method, const ErodibilityInputs& inputs, const SoilDescription& soil,
                const std::string& why) {
    const MethodResult result = result_of(inputs, method);
    if (!result.si || !(*result.si > 0))
        throw std::invalid_argument(result.why_not.empty() ? "It gives a K of 0" : result.why_not);
    Worked worked;
    worked.spread_kind = spread_kind_of(method);
    worked.stated.value = *result.si;
    worked.stated.origin = result.origin;
    worked.stated.origin.from += "; texture: " + soil.texture_origin.from;
    worked.remarks = result.remarks;
    // Regressions on a few soils of one region, and what had to stand in for the nomograph equation.
    const bool rough = result.method.starts_with("aggregates") || soil.method == ErodibilityMethod::fitting;
    worked.remarks.push_back(method_remark(result, why, rough));
    const source::Origin& of_texture = soil.texture_origin;
    const auto shares = [&] { return TextureShares{*inputs.sand_pct, *inputs.silt_pct, *inputs.clay_pct}; };
    switch (method) {
        case ErodibilityMethod::particle_size:
            worked.steps = diameter_steps(shares(), *result.si, of_texture);
            break;
        case ErodibilityMethod::texture_carbon: {
            const double per_carbon = organic_matter_of_carbon_pct(1.0);
            worked.steps = inputs.organic_carbon_pct
                               ? carbon_steps(shares(), *inputs.organic_carbon_pct, std::nullopt, *result.us,
                                              *result.si, of_texture)
                               : carbon_steps(shares(), *inputs.organic_matter_pct / per_carbon,
                                              inputs.organic_matter_pct, *result.us, *result.si, of_texture);
            break;
        }
        case ErodibilityMethod::unstable_aggregates:
            worked.steps = volcanic_steps(*inputs.volcanic, *result.us, *result.si, of_texture);
            break;
        case ErodibilityMethod::aggregate_index:
            worked.steps = midwest_steps(*inputs.midwest, *result.us, *result.si, of_texture);
            break;
        default:
            worked.steps = {{"K", "soil erodibility of a " + inputs.texture + " in the table, in US units", "", "",
                             *result.us, "US K", result.origin},
                            step_to_si(*result.us, *result.si)};
    }
    return worked;
}

/// Which method, and why, where the file asks for none.
Worked by_fitting(const SoilDescription& as_written) {
    const SoilDescription soil = filled(as_written);
    const ErodibilityInputs inputs = inputs_for(soil);
    std::string lacking = lacking_for(ErodibilityMethod::nomograph, as_written);
    if (lacking.empty() && soil.very_fine_sand_pct)
        return by_nomograph(soil, as_written.permeability_code.has_value(),
                            "no K of a survey is given, and all that the equation needs is");
    std::string why = "no K of a survey is given";
    if (lacking.empty()) {
        const MethodResult bounded = result_of(inputs, ErodibilityMethod::nomograph);
        if (bounded.us && bounded.bounds_us) return by_bounded_nomograph(inputs, bounded, soil, why);
        why += ", and the nomograph equation needs very fine sand";
    } else {
        why += ", and the nomograph equation needs " + lacking + " too";
    }
    if (lacking_for(ErodibilityMethod::texture_carbon, as_written).empty())
        return by_other(ErodibilityMethod::texture_carbon, inputs, soil, why);
    if (lacking_for(ErodibilityMethod::particle_size, as_written).empty())
        return by_other(ErodibilityMethod::particle_size, inputs, soil, why + ", texture and carbon organic matter");
    throw std::invalid_argument("No K is given, nor what one is worked out from: the nomograph equation needs " +
                                lacking);
}

Worked by_method(const SoilDescription& as_written) {
    const ErodibilityMethod method = as_written.method;
    const std::string lacking = lacking_for(method, as_written);
    if (!lacking.empty()) throw std::invalid_argument(fmt::format("K by {} needs {} too", words_for(method), lacking));
    const SoilDescription soil = filled(as_written);
    const ErodibilityInputs inputs = inputs_for(soil);
    const std::string why = "as the file asks";
    if (method != ErodibilityMethod::nomograph) return by_other(method, inputs, soil, why);
    if (soil.very_fine_sand_pct) return by_nomograph(soil, as_written.permeability_code.has_value(), why);
    const MethodResult bounded = result_of(inputs, method);
    if (!bounded.us || !bounded.bounds_us) throw std::invalid_argument(bounded.why_not);
    return by_bounded_nomograph(inputs, bounded, soil, why);
}

/// K of the whole soil from that of the fine earth.
void count_rock(Worked& worked, double volume_pct) {
    const double left = whole_soil_erodibility(1.0, volume_pct);
    const source::Origin rock = source::origin_of("rock-fragments");
    const double fine_earth = worked.stated.value;
    if (worked.steps.empty())
        worked.steps.push_back({"Kf", "soil erodibility of the fine earth, as given", "", "", fine_earth,
                                "t ha h/(ha MJ mm)", worked.stated.origin});
    else
        worked.steps.back().symbol = "Kf";
    worked.stated.value *= left;
    for (auto* range : {&worked.stated.range, &worked.bounds})
        if (*range) *range = spread::Range{left * (*range)->low, left * (*range)->high};
    worked.steps.push_back({"r",
                            fmt::format("share of K left under {:g} % of rock fragments by volume{}", volume_pct,
                                        left < 1.0 ? "" : ", none counted below 15 %"),
                            "", "", left, "1", rock});
    worked.steps.push_back({"K", "soil erodibility of the whole soil, its rock counted", "Kf r",
                            in_working(fine_earth) + " x " + in_working(left), worked.stated.value, "t ha h/(ha MJ mm)",
                            rock});
    worked.stated.origin.from += "; rock fragments counted";
    worked.remarks.push_back({source::Weight::note, "rock-counted",
                              fmt::format("Rock fragments of {:g} % by volume leave {:.0f} % of K. They are no surface "
                                          "cover in C as well.",
                                          volume_pct, 100 * left)});
}

spread::Uncertain with_bounds(Worked worked) {
    const double K = worked.stated.value;
    const spread::Range bounds = *worked.bounds;
    worked.stated.range =
        spread::Range{std::min(bounds.low, nomograph_low * K), std::max(bounds.high, nomograph_high * K)};
    spread::Uncertain result = spread::with_spread(worked.stated, worked.spread_kind, std::move(worked.steps));
    result.spread_origin = source::origin_of("very-fine-sand");
    source::Step& range = result.steps.back();
    range.words =
        "range that holds it 19 times in 20: K with no very fine sand to K with all of the sand very fine (at most "
        "to 70 % with the silt), no narrower than that of the equation";
    range.origin = result.spread_origin;
    const auto end = [&](const char* which, double bound, double by, double free, double kept) {
        return source::held_working(
            std::string(which) + "(" + in_working(bound) + ", " + in_working(by) + " x " + in_working(K) + ")", free,
            kept);
    };
    range.working = end("min", bounds.low, nomograph_low, worked.stated.range->low, result.low);
    range.upper_working = end("max", bounds.high, nomograph_high, worked.stated.range->high, result.high);
    return result;
}

}  // namespace

spread::Uncertain erodibility(const SoilDescription& soil) {
    Worked worked;
    if (soil.erodibility && (soil.method == ErodibilityMethod::survey || soil.method == ErodibilityMethod::fitting)) {
        worked.stated = *soil.erodibility;
        worked.spread_kind = "erodibility-survey";
    } else {
        worked = soil.method == ErodibilityMethod::fitting ? by_fitting(soil) : by_method(soil);
    }
    if (soil.count_rock && soil.rock_fragments_pct) count_rock(worked, *soil.rock_fragments_pct);
    source::Remarks remarks = std::move(worked.remarks);
    spread::Uncertain result = worked.bounds
                                   ? with_bounds(std::move(worked))
                                   : spread::with_spread(worked.stated, worked.spread_kind, std::move(worked.steps));
    result.remarks = std::move(remarks);
    return result;
}

}  // namespace soilhold::factors
