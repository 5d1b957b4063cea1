#include "structure/applicability.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "soiltest/fairness_rules.h"
#include "structure/aggregate_scale.h"
#include "structure/parameters.h"

namespace soilhold::structure {

namespace {

using source::Weight;

bool known(const std::optional<double>& percent) { return percent && std::isfinite(*percent); }

/// 35 % of gravel and more, by the words of the soil survey.
bool very_gravelly(const std::string& texture) {
    return soiltest::is_gravelly(texture) &&
           (texture.find("very") != std::string::npos || texture.find("extremely") != std::string::npos ||
            texture.find("Very") != std::string::npos || texture.find("Extremely") != std::string::npos);
}

/// Two tests lie farther apart on the common scale than twice their doubt.
bool disagree(const std::vector<Observation>& tests) {
    for (std::size_t i = 0; i < tests.size(); ++i)
        for (std::size_t j = i + 1; j < tests.size(); ++j)
            if (std::abs(tests[i].W - tests[j].W) > 2.0 * std::hypot(tests[i].sd, tests[j].sd)) return true;
    return false;
}

}  // namespace

std::string why_not_applied(const soiltest::Summary& tests, const Soil& soil,
                            const std::optional<LocalReference>& reference) {
    if (!tests.slake && !tests.slump && !tests.water_stable_pct && !tests.mean_weight_diameter_mm)
        return "nothing was measured";
    if (tests.position == soiltest::SpotPosition::fencerow || tests.position == soiltest::SpotPosition::headland)
        return "the sample is from a fencerow or headland: a reference, not a field";
    if (tests.slake && 2 * tests.slake->floated > tests.slake->clods)
        return "most clods floated, so they say nothing about structure";
    if (tests.cloudiness == soiltest::Cloudiness::strong)
        return "the water turned strongly cloudy: dispersing clay is another trouble than slaking";
    if (tests.slake && tests.drying_days && *tests.drying_days < soiltest::fairness_rules().least_drying_days)
        return "the clods dried for less than a day, and half-dry clods look stable";
    if (soiltest::is_sandy(soil.texture_class)) return "on sand a soak test says little about erosion";
    if (very_gravelly(soil.texture_class)) return "in very gravelly soil stones hold the clods";
    if (!reference && !known(soil.clay_pct) && !known(soil.organic_matter_pct))
        return "clay and organic matter are not known, so there is no expectation to compare with";
    if (!reference && !known(soil.clay_pct)) return "clay is not known, so there is no expectation to compare with";
    if (!reference && !known(soil.organic_matter_pct))
        return "organic matter is not known, so there is no expectation to compare with";
    return "";
}

source::Remarks remarks_on(const soiltest::Summary& tests, const Soil& soil, const Assessment& assessment) {
    const Parameters& p = parameters();
    source::Remarks remarks;
    if (tests.slump && !tests.slake && !tests.water_stable_pct && !tests.mean_weight_diameter_mm)
        remarks.push_back(
            {Weight::caution, "structure-slump-only",
             "Only the loose-soil test was made. It is read in three steps, so m is drawn far towards 1."});
    if (disagree(observations(tests)))
        remarks.push_back(
            {Weight::caution, "structure-tests-disagree",
             "The tests point to different stabilities. Loose moist soil and dry clods can differ for good "
             "reason; check the labels first."});
    if (!assessment.m_unstable_fraction)
        remarks.push_back({Weight::note, "structure-small-k",
                           fmt::format("K is below {:g} US, so the link through the unstable fraction is left out.",
                                       p.unstable_link_least_erodibility)});
    if (assessment.m <= p.m_least || assessment.m >= p.m_most)
        remarks.push_back({Weight::caution, "structure-clamped",
                           fmt::format("m was held at {:.2g}; tests alone can't argue for more.", assessment.m)});
    if (assessment.mode == CountingMode::cover_only)
        remarks.push_back(
            {Weight::note, "structure-cover-only",
             "C was built from cover alone, so m is measured from tilled ground and stands in for what past "
             "farming did to the soil."});
    if (assessment.local_reference && !tests.water_stable_pct)
        remarks.push_back(
            {Weight::caution, "structure-reference-method",
             "The reference is a percentage of water-stable soil, and this field was tested otherwise. Test "
             "both by one method."});
    if (soiltest::is_gravelly(soil.texture_class))
        remarks.push_back({Weight::caution, "structure-gravel",
                           "Stones can hold a clod together; leave out every clod that one held."});
    if (soil.organic_matter_pct && *soil.organic_matter_pct > 4.0 && !assessment.local_reference)
        remarks.push_back({Weight::note, "structure-organic-matter",
                           "K counts organic matter up to 4 % only, while the expected stability counts all of it."});
    return remarks;
}

}  // namespace soilhold::structure
