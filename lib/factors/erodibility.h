/// Soil erodibility K [t ha h/(ha MJ mm)] as an estimate takes it: from the survey, or by one of the published methods.
///
/// Left to itself it takes the survey's K; else the nomograph equation, with its bounds where very fine sand was not
/// measured; else texture and organic carbon; else the geometric mean diameter. The tables and the regressions on
/// aggregates are taken only when asked for: they rest on a class alone, or on few soils of one region. A method gives
/// K within its published range and an error that says so outside; all of them side by side: `erodibility_methods.h`.
/// Stones by volume lower K where they are to count in it (`rock_fragments.h`).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "spread/uncertain.h"

namespace soilhold::factors {

enum class ErodibilityMethod {
    fitting,  ///< what the inputs allow, in the order above
    survey,
    nomograph,
    particle_size,
    texture_carbon,
    texture_table,
    extension_table,
    unstable_aggregates,
    aggregate_index,
};

/// What was written about the soil's erodibility and texture. `erodibility` wins over the texture when both are there,
/// unless another method is asked for.
struct SoilDescription {
    std::optional<spread::Stated> erodibility;                               ///< K given, SI
    std::optional<double> sand_pct, silt_pct, very_fine_sand_pct, clay_pct;  ///< very fine sand is part of sand
    std::optional<double> organic_matter_pct;
    std::optional<int> structure_code;     ///< 1..4
    std::optional<int> permeability_code;  ///< 1..6, 6 slowest
    source::Origin texture_origin;

    ErodibilityMethod method = ErodibilityMethod::fitting;
    std::string texture{};                       ///< class, "silt loam"; "" takes the triangle's
    std::optional<double> organic_carbon_pct{};  ///< as written; the matter of it stands in organic_matter_pct too
    std::optional<double> unstable_below_250um_pct{}, base_saturation_pct{};  ///< of the volcanic soils' relation
    std::optional<double> aggregate_index{}, montmorillonite_pct{}, dispersion_ratio{}, bulk_density{};  ///< Midwest's
    std::optional<double> rock_fragments_pct{};  ///< by volume of the whole soil
    bool count_rock = false;  ///< lower K by the rock fragments: K of the whole soil from that of the fine earth
};

/// "particle size", as a field file names it. `fitting` has none.
std::string_view words_for(ErodibilityMethod method);
std::vector<std::string_view> erodibility_method_words();
/// @throws std::invalid_argument for other words
ErodibilityMethod erodibility_method_of(std::string_view words);

/// What a method still needs of this soil: "silt, clay and base saturation"; empty when nothing is lacking.
std::string lacking_for(ErodibilityMethod method, const SoilDescription& soil);

/// K of a soil, by the method asked for or the one its description allows.
/// @throws std::invalid_argument when nothing allows any, the method asked for lacks an input, or the soil lies outside
///         its range; the sentence says which
spread::Uncertain erodibility(const SoilDescription& soil);

}  // namespace soilhold::factors
