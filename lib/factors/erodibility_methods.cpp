#include "factors/erodibility_methods.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "factors/geometric_mean_diameter.h"
#include "factors/nomograph.h"
#include "factors/nomograph_codes.h"
#include "factors/rock_fragments.h"
#include "factors/texture_carbon.h"
#include "factors/texture_class.h"
#include "factors/texture_erodibility.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

constexpr double largest_silt_and_very_fine_sand_pct = 70.0;

using units::erodibility_si_per_us;

/// The inputs with what follows from others filled in.
struct Known {
    ErodibilityInputs soil;
    std::optional<double> sand, silt, clay, matter, carbon;
    std::string texture;
};

void need_possible(const ErodibilityInputs& soil) {
    const auto share = [](const std::optional<double>& value, const char* name) {
        if (value && !(*value >= 0 && *value <= 100))
            throw std::invalid_argument(fmt::format("{} lies from 0 to 100 %", name));
    };
    share(soil.sand_pct, "sand");
    share(soil.silt_pct, "silt");
    share(soil.clay_pct, "clay");
    share(soil.very_fine_sand_pct, "very fine sand");
    share(soil.organic_matter_pct, "organic matter");
    share(soil.organic_carbon_pct, "organic carbon");
    share(soil.fragment_volume_pct, "the volume of rock fragments");
    for (const auto& K : {soil.survey_fine_earth, soil.survey_whole_soil})
        if (K && !(*K >= 0 && *K <= erodibility_si_per_us))
            throw std::invalid_argument("a survey's K lies from 0 to 1 in US units, 0 to 0.13 in SI");
    if (soil.structure_code) structure_term_us(*soil.structure_code);
    if (soil.permeability_code) permeability_term_us(*soil.permeability_code);
}

/// The third of sand, silt and clay from the other two.
void fill_third(std::optional<double>& third, const std::optional<double>& one, const std::optional<double>& other) {
    if (third || !one || !other) return;
    if (*one + *other > 100.5) throw std::invalid_argument("sand, silt and clay must sum to 100 %");
    third = std::max(0.0, 100.0 - *one - *other);
}

Known known_of(const ErodibilityInputs& soil) {
    need_possible(soil);
    Known known{soil,          soil.sand_pct,           soil.silt_pct,
                soil.clay_pct, soil.organic_matter_pct, soil.organic_carbon_pct,
                soil.texture};
    fill_third(known.sand, known.silt, known.clay);
    fill_third(known.silt, known.sand, known.clay);
    fill_third(known.clay, known.sand, known.silt);
    if (known.sand && known.silt && known.clay && known.texture.empty())
        known.texture = texture_class(*known.sand, *known.silt, *known.clay);
    else if (known.sand && known.silt && known.clay)
        texture_class(*known.sand, *known.silt, *known.clay);  // for its check of the sum
    if (soil.very_fine_sand_pct && known.sand && *soil.very_fine_sand_pct > *known.sand + 0.5)
        throw std::invalid_argument("very fine sand is a part of the sand and can't be more than it");
    if (!known.matter && known.carbon) known.matter = std::min(100.0, organic_matter_of_carbon_pct(*known.carbon));
    if (!known.carbon && known.matter) known.carbon = *known.matter / organic_matter_of_carbon_pct(1.0);
    return known;
}

MethodResult method(std::string key, std::string name, source::Origin origin, std::string range_note) {
    MethodResult result;
    result.method = std::move(key);
    result.name = std::move(name);
    result.origin = std::move(origin);
    result.range_note = std::move(range_note);
    return result;
}

void give_us(MethodResult& result, double K_us) {
    result.us = K_us;
    result.si = K_us * erodibility_si_per_us;
}

void give_whole_soil_us(MethodResult& result, double K_us) {
    result.whole_soil_us = K_us;
    result.whole_soil_si = K_us * erodibility_si_per_us;
}

void give_bounds_us(MethodResult& result, double low_us, double high_us) {
    result.bounds_us = spread::Range{low_us, high_us};
    result.bounds_si = spread::Range{low_us * erodibility_si_per_us, high_us * erodibility_si_per_us};
}

/// "It needs sand, silt and clay." from the names of what is missing; empty when nothing is.
std::string needs(std::vector<std::pair<bool, const char*>> inputs) {
    std::vector<const char*> missing;
    for (const auto& [there, name] : inputs)
        if (!there) missing.push_back(name);
    std::string words;
    for (std::size_t i = 0; i < missing.size(); ++i)
        words += (i == 0 ? "" : i + 1 == missing.size() ? " and " : ", ") + std::string(missing[i]);
    return words.empty() ? "" : "It needs " + words + ".";
}

MethodResult by_survey(const Known& known) {
    MethodResult result =
        method("survey", "soil survey, as given", {"your soil survey", "", source::Standing::users_figure},
               "The survey's own map unit and horizon; its K is for a benchmark condition.");
    if (known.soil.survey_fine_earth)
        give_us(result, *known.soil.survey_fine_earth / erodibility_si_per_us);
    else
        result.why_not =
            known.soil.survey_whole_soil ? "Only the survey's K with stones was given." : "No K of a survey was given.";
    if (known.soil.survey_whole_soil) give_whole_soil_us(result, *known.soil.survey_whole_soil / erodibility_si_per_us);
    return result;
}

/// K by the equation at an amount of very fine sand, or why there is none.
std::pair<std::optional<double>, std::string> nomograph_at(NomographSoil soil, double very_fine_sand_pct) {
    soil.very_fine_sand_pct = very_fine_sand_pct;
    const double fine = soil.silt_pct + very_fine_sand_pct;
    if (fine > largest_silt_and_very_fine_sand_pct)
        return {
            {},
            fmt::format("Silt and very fine sand make {:.0f} %; the equation holds up to 70 % and overstates above.",
                        fine)};
    const double K = nomograph_erodibility_us(soil);
    if (!(K > 0)) return {{}, "The equation falls below 0 for this soil."};
    return {K, ""};
}

void bound_without_very_fine_sand(MethodResult& result, const NomographSoil& soil, double sand_pct) {
    const double room = largest_silt_and_very_fine_sand_pct - soil.silt_pct;
    if (room < 0) {
        result.why_not = nomograph_at(soil, 0).second;
        return;
    }
    // K rises with very fine sand, so the ends of what it may be are the ends of K. K of nothing is 0, which bounds.
    NomographSoil most = soil;
    most.very_fine_sand_pct = std::min(sand_pct, room);
    give_bounds_us(result, nomograph_erodibility_us(soil), nomograph_erodibility_us(most));
    const double typical = typical_very_fine_share * sand_pct;
    const auto [K, why_not] = nomograph_at(soil, typical);
    if (K)
        give_us(result, *K);
    else
        result.why_not = why_not;
    result.origin.from += "; very fine sand assumed";
    result.origin.standing = source::Standing::our_assumption;
    const std::string reach = sand_pct <= room
                                  ? fmt::format("Whatever it is, K lies from {:.2f} to {:.2f} US.",
                                                result.bounds_us->low, result.bounds_us->high)
                                  : fmt::format(
                                        "K lies from {:.2f} US up to {:.2f} at {:.0f} % and higher beyond, where "
                                        "the equation no longer holds.",
                                        result.bounds_us->low, result.bounds_us->high, room);
    result.remarks.push_back({source::Weight::caution, "very-fine-sand-assumed",
                              fmt::format("Very fine sand was not given: {:.0f} % is taken, {:.0f} % of the sand (our "
                                          "assumption). {}",
                                          typical, 100 * typical_very_fine_share, reach)});
}

MethodResult by_nomograph(const Known& known) {
    MethodResult result = method("nomograph", "nomograph equation", source::origin_of("nomograph"),
                                 "Silt and very fine sand up to 70 %; organic matter above 4 % counts as 4.");
    const auto& given = known.soil;
    std::optional<int> permeability = given.permeability_code;
    source::Remarks remarks;
    if (!permeability && !known.texture.empty()) try {
            permeability = permeability_code_of_texture(known.texture);
            remarks.push_back({source::Weight::note, "permeability-of-texture",
                               fmt::format("Permeability code {} is that of a {} (from memory, check the source).",
                                           *permeability, known.texture)});
        } catch (const std::invalid_argument&) {
            // a finer word than the table's: the code stays missing and is asked for below
        }
    result.why_not = needs({{known.silt.has_value(), "silt"},
                            {known.clay.has_value(), "clay"},
                            {given.very_fine_sand_pct || known.sand, "very fine sand"},
                            {known.matter.has_value(), "organic matter"},
                            {given.structure_code.has_value(), "a structure code"},
                            {permeability.has_value(), "a permeability code"}});
    if (!result.why_not.empty()) return result;
    NomographSoil soil{*known.silt, 0, *known.clay, *known.matter, *given.structure_code, *permeability};
    const double over = std::max(1.0, (soil.silt_pct + soil.clay_pct) / 100.0);  // a sum rounded above 100 %
    soil.silt_pct /= over;
    soil.clay_pct /= over;
    const double sand_left = std::max(0.0, 100.0 - soil.silt_pct - soil.clay_pct);
    if (given.very_fine_sand_pct) {
        soil.very_fine_sand_pct = std::min(*given.very_fine_sand_pct, sand_left);
        const auto [K, why_not] = nomograph_at(soil, soil.very_fine_sand_pct);
        if (K)
            give_us(result, *K);
        else
            result.why_not = why_not;
    } else {
        bound_without_very_fine_sand(result, soil, std::min(*known.sand, sand_left));
    }
    if (!remarks.empty() && result.origin.standing == source::Standing::read_in_source)
        result.origin.standing = source::Standing::from_memory;
    result.remarks.insert(result.remarks.end(), remarks.begin(), remarks.end());
    for (source::Remark& remark : nomograph_remarks(soil))
        if (remark.code == "organic-matter-capped") result.remarks.push_back(std::move(remark));
    return result;
}

/// Whether the soil is one of those the relation was fitted to: less than 10 % rock.
std::vector<MethodResult> by_diameter(const Known& known) {
    const std::string range = "Means of classes of soils with less than 10 % rock fragments.";
    MethodResult world = method("diameter-world", "geometric mean diameter, 225 soils of the world",
                                source::origin_of("geometric-mean-diameter"), range);
    MethodResult states = method("diameter-united-states", "geometric mean diameter, soils of the United States",
                                 source::origin_of("geometric-mean-diameter"), range);
    std::string why_not =
        needs({{known.sand.has_value(), "sand"}, {known.silt.has_value(), "silt"}, {known.clay.has_value(), "clay"}});
    if (why_not.empty() && known.soil.fragment_volume_pct && *known.soil.fragment_volume_pct >= 10)
        why_not = fmt::format("Rock fragments make {:.0f} %; the relation holds below 10 %.",
                              *known.soil.fragment_volume_pct);
    if (!why_not.empty()) {
        world.why_not = states.why_not = why_not;
        return {world, states};
    }
    const std::array<GrainClass, 3> grains{GrainClass{*known.clay, 0, 0.002}, GrainClass{*known.silt, 0.002, 0.05},
                                           GrainClass{*known.sand, 0.05, 2}};
    const double diameter_mm = geometric_mean_diameter_mm(grains);
    give_us(world, erodibility_from_diameter(diameter_mm) / erodibility_si_per_us);
    give_us(states, erodibility_from_diameter_us_soils(diameter_mm) / erodibility_si_per_us);
    if (!known.soil.fragment_volume_pct)
        for (MethodResult* one : {&world, &states})
            one->remarks.push_back({source::Weight::note, "fragments-unknown",
                                    "Rock fragments were not given; the relation holds below 10 %."});
    return {world, states};
}

MethodResult by_carbon(const Known& known) {
    MethodResult result = method("texture-carbon", "texture and organic carbon", source::origin_of("texture-carbon"),
                                 "No range is known to us; it takes neither structure nor permeability.");
    result.why_not = needs({{known.sand.has_value(), "sand"},
                            {known.silt.has_value(), "silt"},
                            {known.clay.has_value(), "clay"},
                            {known.carbon.has_value(), "organic carbon or organic matter"}});
    if (!result.why_not.empty()) return result;
    if (!(*known.silt + *known.clay > 0))
        result.why_not = "It needs some silt or clay.";
    else
        give_us(result, texture_carbon_erodibility_us(*known.sand, *known.silt, *known.clay, *known.carbon));
    return result;
}

MethodResult by_stewart(const Known& known) {
    MethodResult result =
        method("table-1975", "table by texture and organic matter", source::origin_of("texture-table-1975"),
               "Ten texture classes, organic matter 0.5 to 4 %.");
    result.why_not = needs({{!known.texture.empty(), "a texture class, or sand, silt and clay"},
                            {known.matter.has_value(), "organic matter"}});
    if (!result.why_not.empty()) return result;
    try {
        give_us(result, texture_erodibility_stewart_us(known.texture, *known.matter));
    } catch (const std::invalid_argument& unfit) {
        result.why_not = std::string(unfit.what()) + ".";
        result.why_not[0] = 'T';
    }
    return result;
}

MethodResult by_ontario(const Known& known) {
    MethodResult result =
        method("table-extension", "extension table by texture", source::origin_of("texture-table-extension"),
               "Sixteen texture classes, organic matter below or above 2 %; its region's soils.");
    result.why_not = needs({{!known.texture.empty(), "a texture class, or sand, silt and clay"}});
    if (!result.why_not.empty()) return result;
    const std::string column = !known.matter ? "average" : *known.matter < 2.0 ? "below 2 pct" : "above 2 pct";
    try {
        give_us(result, texture_erodibility_ontario_us(known.texture, column));
    } catch (const std::invalid_argument&) {
        result.why_not =
            fmt::format("The table has no figure for a {} with organic matter '{}'.", known.texture, column);
    }
    return result;
}

/// A regression's K, which has no meaning below 0 or beyond what was ever measured.
void give_regression(MethodResult& result, double K_us) {
    if (K_us >= 0 && K_us <= 0.7)
        give_us(result, K_us);
    else
        result.why_not =
            fmt::format("It gives {:.2f} US, outside 0 to 0.7: this soil is not one the relation was fitted to.", K_us);
}

std::vector<MethodResult> by_aggregates(const Known& known) {
    MethodResult volcanic = method("aggregates-volcanic", "regression on unstable aggregates",
                                   source::origin_of("volcanic-soils"), "A few volcanic soils of the tropics.");
    MethodResult midwest = method("aggregates-midwest", "regression on an aggregate index",
                                  source::origin_of("midwest-aggregates"), "A few soils of the upper Midwest.");
    if (known.soil.volcanic)
        give_regression(volcanic, volcanic_soil_erodibility_us(*known.soil.volcanic));
    else
        volcanic.why_not =
            "It needs wet-sieved aggregates below 0.25 mm and base saturation; a slake score is neither.";
    if (known.soil.midwest)
        give_regression(midwest, midwest_soil_erodibility_us(*known.soil.midwest));
    else
        midwest.why_not =
            "It needs an aggregate index, montmorillonite and a dispersion ratio; a slake score is none of them.";
    return {volcanic, midwest};
}

}  // namespace

std::vector<MethodResult> erodibility_by_all_methods(const ErodibilityInputs& soil) {
    const Known known = known_of(soil);
    std::vector<MethodResult> results{by_survey(known), by_nomograph(known)};
    const auto add = [&](std::vector<MethodResult> more) {
        for (MethodResult& one : more) results.push_back(std::move(one));
    };
    add(by_diameter(known));
    add({by_carbon(known), by_stewart(known), by_ontario(known)});
    add(by_aggregates(known));
    for (MethodResult& one : results)
        if (one.us && !one.whole_soil_us && soil.fragment_volume_pct)
            give_whole_soil_us(one, whole_soil_erodibility(*one.us, *soil.fragment_volume_pct));
    return results;
}

}  // namespace soilhold::factors
