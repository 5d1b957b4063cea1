/// One soil, every published way to its K, side by side: how far they agree is part of the answer.
///
/// Each method answers within the range it was published for; outside it gives no value but says why. Nothing is
/// averaged and none is chosen here: an estimate takes the survey's K or the nomograph (`erodibility.h`).
///
/// Without very fine sand the nomograph can still be bounded: K rises with it, so 0 and all of the sand are its ends.
/// Between them stands a typical share of the sand, our assumption.
/// @source Each method's own header; stones: `rock_fragments.h`. Typical share: ours, see `typical_very_fine_share`
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "factors/aggregate_erodibility.h"
#include "source/citation.h"
#include "source/remark.h"
#include "spread/uncertain.h"

namespace soilhold::factors {

/// What is known of one soil; all may be missing. K in SI, shares in percent of the fine earth below 2 mm.
struct ErodibilityInputs {
    std::optional<double> survey_fine_earth;   ///< Kf of a survey, t ha h/(ha MJ mm)
    std::optional<double> survey_whole_soil;   ///< Kw of a survey, the stones counted
    std::optional<double> sand_pct;            ///< 0.05-2 mm; of the three shares one may be left out
    std::optional<double> silt_pct;            ///< 0.002-0.05 mm
    std::optional<double> clay_pct;            ///< < 0.002 mm
    std::optional<double> very_fine_sand_pct;  ///< 0.05-0.10 mm, a part of the sand
    std::optional<double> organic_matter_pct;  ///< of either matter or carbon the other follows (1.72)
    std::optional<double> organic_carbon_pct;
    std::optional<int> structure_code;          ///< 1 to 4
    std::optional<int> permeability_code;       ///< 1 to 6; left out, that of the texture class
    std::optional<double> fragment_volume_pct;  ///< rock in the whole soil, % by volume
    std::string texture;                        ///< "silt loam"; "" takes the triangle's class
    std::optional<VolcanicSoil> volcanic;       ///< measured for the relation of tropical volcanic soils
    std::optional<MidwestSoil> midwest;         ///< measured for the relation of the upper Midwest
};

struct MethodResult {
    std::string method;                      ///< stable key: "nomograph"
    std::string name;                        ///< plain words: "nomograph equation"
    std::optional<double> si;                ///< K of the fine earth, t ha h/(ha MJ mm); none: see `why_not`
    std::optional<double> us;                ///< the same in US units
    std::optional<spread::Range> bounds_si;  ///< where an input is missing: K lies between, as far as the method holds
    std::optional<spread::Range> bounds_us;
    std::optional<double> whole_soil_si;  ///< K with the stones counted; none where their volume is not known
    std::optional<double> whole_soil_us;
    source::Origin origin;
    std::string range_note;  ///< the soils it was published for
    std::string why_not;     ///< a sentence; empty exactly when `si` holds a value
    source::Remarks remarks;
};

/// Share of the sand taken as very fine where it was not measured. Our assumption: in the 40 textures of one soil
/// survey (tests/field/data) its median is 0.28, the middle eight in ten 0.16 to 0.59.
inline constexpr double typical_very_fine_share = 0.30;

/// Every method once, always in the same order: survey, nomograph, geometric mean diameter (world and United States
/// soils), texture and carbon, the two texture tables, the two aggregate regressions.
/// @throws std::invalid_argument for what no soil can be: shares outside 0 to 100 %, a sum off 100 by more than 0.5,
/// more
///         very fine sand than sand, codes outside their classes, a survey's K outside 0 to 1 US
std::vector<MethodResult> erodibility_by_all_methods(const ErodibilityInputs& soil);

}  // namespace soilhold::factors
