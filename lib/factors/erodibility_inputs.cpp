#include "factors/erodibility_inputs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "factors/nomograph_codes.h"
#include "factors/texture_class.h"

namespace soilhold::factors {

namespace {

struct MethodName {
    ErodibilityMethod method;
    std::string_view words;
    std::string_view key;     ///< in erodibility_methods.h
    std::string_view spread;  ///< its row of default-spreads.csv
};

constexpr auto names = std::to_array<MethodName>({
    {ErodibilityMethod::survey, "survey", "survey", "erodibility-survey"},
    {ErodibilityMethod::nomograph, "nomograph", "nomograph", "erodibility-nomograph"},
    {ErodibilityMethod::particle_size, "particle size", "diameter-world", "erodibility-particle-size"},
    {ErodibilityMethod::texture_carbon, "texture and carbon", "texture-carbon", "erodibility-texture-carbon"},
    {ErodibilityMethod::texture_table, "texture table", "table-1975", "erodibility-texture-table"},
    {ErodibilityMethod::extension_table, "extension table", "table-extension", "erodibility-texture-table"},
    {ErodibilityMethod::unstable_aggregates, "unstable aggregates", "aggregates-volcanic", "erodibility-aggregates"},
    {ErodibilityMethod::aggregate_index, "aggregate index", "aggregates-midwest", "erodibility-aggregates"},
});

const MethodName& name_of(ErodibilityMethod method) {
    for (const MethodName& one : names)
        if (one.method == method) return one;
    throw std::invalid_argument("this method of K has no name");
}

}  // namespace

/// The description with what follows from the rest: the third of sand, silt and clay, the triangle's class, and the
/// class's permeability.
SoilDescription filled(SoilDescription soil) {
    const auto fill = [](std::optional<double>& third, const std::optional<double>& one,
                         const std::optional<double>& other) {
        if (!third && one && other && *one + *other <= 100.5) third = std::max(0.0, 100.0 - *one - *other);
    };
    fill(soil.sand_pct, soil.silt_pct, soil.clay_pct);
    fill(soil.silt_pct, soil.sand_pct, soil.clay_pct);
    fill(soil.clay_pct, soil.sand_pct, soil.silt_pct);
    const double sum = soil.sand_pct.value_or(0) + soil.silt_pct.value_or(0) + soil.clay_pct.value_or(0);
    if (soil.texture.empty() && soil.sand_pct && soil.silt_pct && soil.clay_pct && sum > 0)
        soil.texture =
            texture_class(*soil.sand_pct * 100 / sum, *soil.silt_pct * 100 / sum, *soil.clay_pct * 100 / sum);
    if (!soil.permeability_code && !soil.texture.empty()) try {
            soil.permeability_code = permeability_code_of_texture(soil.texture);
        } catch (const std::invalid_argument&) {
            // a finer word than the table's: the code stays missing
        }
    return soil;
}

/// What all methods take; of shares that a lab sheet rounded off 100 % each is brought to the whole.
ErodibilityInputs inputs_for(const SoilDescription& soil) {
    ErodibilityInputs inputs;
    double whole = 1.0;
    if (soil.sand_pct && soil.silt_pct && soil.clay_pct)
        whole = (*soil.sand_pct + *soil.silt_pct + *soil.clay_pct) / 100;
    if (!(std::abs(whole - 1.0) <= 0.0101)) whole = 1.0;
    const auto of_whole = [&](const std::optional<double>& share) {
        return share ? std::optional(*share / whole) : std::nullopt;
    };
    inputs.sand_pct = of_whole(soil.sand_pct);
    inputs.silt_pct = of_whole(soil.silt_pct);
    inputs.clay_pct = of_whole(soil.clay_pct);
    inputs.very_fine_sand_pct = of_whole(soil.very_fine_sand_pct);
    inputs.organic_matter_pct = soil.organic_matter_pct;
    inputs.organic_carbon_pct = soil.organic_carbon_pct;
    inputs.structure_code = soil.structure_code;
    inputs.permeability_code = soil.permeability_code;
    inputs.fragment_volume_pct = soil.rock_fragments_pct;
    inputs.texture = soil.texture;
    if (!inputs.silt_pct || !inputs.sand_pct || !inputs.very_fine_sand_pct) return inputs;
    const double fine = *inputs.silt_pct + *inputs.very_fine_sand_pct;
    const double coarse = std::max(0.0, *inputs.sand_pct - *inputs.very_fine_sand_pct);
    if (soil.unstable_below_250um_pct && soil.base_saturation_pct)
        inputs.volcanic = VolcanicSoil{*soil.unstable_below_250um_pct, fine * coarse, *soil.base_saturation_pct,
                                       *inputs.silt_pct, coarse};
    if (soil.aggregate_index && soil.montmorillonite_pct && soil.bulk_density && soil.dispersion_ratio)
        inputs.midwest = MidwestSoil{*soil.aggregate_index, *soil.montmorillonite_pct, *soil.bulk_density,
                                     fine * coarse, *soil.dispersion_ratio};
    return inputs;
}

MethodResult result_of(const ErodibilityInputs& inputs, ErodibilityMethod method) {
    for (MethodResult& one : erodibility_by_all_methods(inputs))
        if (one.method == name_of(method).key) return std::move(one);
    throw std::invalid_argument("no such method of K");
}

std::string_view spread_kind_of(ErodibilityMethod method) { return name_of(method).spread; }

std::string_view words_for(ErodibilityMethod method) { return name_of(method).words; }

std::vector<std::string_view> erodibility_method_words() {
    std::vector<std::string_view> words;
    for (const MethodName& one : names) words.push_back(one.words);
    return words;
}

ErodibilityMethod erodibility_method_of(std::string_view words) {
    for (const MethodName& one : names)
        if (one.words == words) return one.method;
    throw std::invalid_argument("no method of K is called '" + std::string(words) + "'");
}

std::string lacking_for(ErodibilityMethod method, const SoilDescription& as_written) {
    const SoilDescription soil = filled(as_written);
    std::vector<std::string_view> lacking;
    const auto need = [&](bool there, std::string_view name) {
        if (!there) lacking.push_back(name);
    };
    const auto need_sizes = [&] {
        need(soil.sand_pct.has_value(), "sand");
        need(soil.silt_pct.has_value(), "silt");
        need(soil.clay_pct.has_value(), "clay");
    };
    switch (method) {
        case ErodibilityMethod::survey:
            need(soil.erodibility.has_value(), "the survey's K as 'erodibility'");
            break;
        case ErodibilityMethod::nomograph:
            need(soil.silt_pct.has_value(), "silt");
            need(soil.clay_pct.has_value(), "clay");
            need(soil.very_fine_sand_pct || soil.sand_pct, "very fine sand");
            need(soil.organic_matter_pct.has_value(), "organic matter");
            need(soil.structure_code.has_value(), "structure");
            need(soil.permeability_code.has_value(), "permeability");
            break;
        case ErodibilityMethod::texture_carbon:
            need_sizes();
            need(soil.organic_matter_pct || soil.organic_carbon_pct, "organic carbon");
            break;
        case ErodibilityMethod::particle_size:
            need_sizes();
            break;
        case ErodibilityMethod::texture_table:
            need(!soil.texture.empty(), "texture");
            need(soil.organic_matter_pct.has_value(), "organic matter");
            break;
        case ErodibilityMethod::extension_table:
            need(!soil.texture.empty(), "texture");
            break;
        case ErodibilityMethod::unstable_aggregates:
            need(soil.unstable_below_250um_pct.has_value(), "unstable aggregates");
            need(soil.base_saturation_pct.has_value(), "base saturation");
            need_sizes();
            need(soil.very_fine_sand_pct.has_value(), "very fine sand");
            break;
        case ErodibilityMethod::aggregate_index:
            need(soil.aggregate_index.has_value(), "aggregate index");
            need(soil.montmorillonite_pct.has_value(), "montmorillonite");
            need(soil.dispersion_ratio.has_value(), "dispersion ratio");
            need(soil.bulk_density.has_value(), "bulk density");
            need_sizes();
            need(soil.very_fine_sand_pct.has_value(), "very fine sand");
            break;
        case ErodibilityMethod::fitting:
            break;
    }
    std::string words;
    for (std::size_t i = 0; i < lacking.size(); ++i)
        words += (i == 0 ? "" : i + 1 == lacking.size() ? " and " : ", ") + std::string(lacking[i]);
    return words;
}

}  // namespace soilhold::factors
