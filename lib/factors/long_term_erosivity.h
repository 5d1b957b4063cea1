/// The long-term R behind a gauge record of few years, with the doubt of having so few.
///
/// R is an average of many years (20 or more are customary, from memory). The mean of n recorded years stands in for
/// it; ln of the interval's half width is t sqrt(ln(1 + v^2/n)), v the year-to-year variation of annual erosivity as a
/// share of its mean, t Student's quantile for 80 % within. Few years say little of v, so that the years' own is pooled
/// with 0.45 as if that stood on four degrees of freedom (our assumptions). The doubt counts the years at hand only:
/// not the gauge, not the energy equation, not a changing climate.
/// @source mean of years: AH 537 (1978), AH 703 (1997) ch. 2 (from memory). Doubt: ours
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "factors/gauge_record.h"
#include "spread/interval.h"

namespace soilhold::factors {

inline constexpr double usual_year_to_year = 0.45;
inline constexpr double usual_degrees = 4.0;
inline constexpr int customary_years = 20;

struct LongTermErosivity {
    spread::Interval R_brown_foster;  ///< MJ mm/(ha h yr), central 80 %
    spread::Interval R_537;           ///< MJ mm/(ha h yr), central 80 %
    std::vector<YearOfRain> years;    ///< whose mean it is
    bool calendar_years = true;       ///< false: twelve months from the day the record began
    double year_to_year = 0.0;        ///< v as taken
};

/// The interval about a mean of these annual values. @throws std::invalid_argument for none, or a mean not above 0
spread::Interval mean_of_years(const std::vector<double>& annual, double& year_to_year);

/// Full calendar years if there are any, else full years of twelve months from the record's first day.
/// @return nothing when no such year is recorded to `least_recorded_share`, or none of them had a counted storm
std::optional<LongTermErosivity> long_term_erosivity(const GaugeRecord& record, const RecordErosivity& result);

/// "2 full years (2013 to 2014)", "twelve months".
std::string years_in_words(const LongTermErosivity& R);

}  // namespace soilhold::factors
