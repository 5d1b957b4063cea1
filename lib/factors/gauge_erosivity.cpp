#include "factors/gauge_erosivity.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>
#include <utility>

#include "units/printing.h"
#include "units/unit.h"

namespace soilhold::factors {

namespace {

using source::in_working;

constexpr const char* unit = "MJ mm/(ha h yr)";

/// With fewer, the R of a map is steadier (our assumption).
constexpr std::size_t few_years = 5;

std::string both(double si) {
    return fmt::format("{} SI ({} US)", units::figures(si, 2), units::figures(si / units::erosivity_si_per_us, 2));
}

std::vector<double> annual_values(const GaugeErosivity& gauge) {
    std::vector<double> values;
    for (const YearOfRain& year : gauge.long_term.years)
        values.push_back(gauge.energy == RainEnergy::brown_foster ? year.EI30_brown_foster : year.EI30_537);
    return values;
}

source::Origin energy_origin(RainEnergy energy) {
    return source::origin_of(energy == RainEnergy::brown_foster ? "unit-energy-brown-foster" : "unit-energy-537");
}

const char* energy_words(RainEnergy energy) {
    return energy == RainEnergy::brown_foster ? "energy of Brown & Foster" : "energy of Handbook 537";
}

std::string why_none(const RecordErosivity& result) {
    double sum = 0.0;
    int storms = 0;
    for (const YearOfRain& year : result.years) {
        sum += year.EI30_brown_foster;
        storms += year.storms;
    }
    return fmt::format(
        "no year, nor twelve months from the first day, is recorded to 95 % with a storm that counts. What was "
        "recorded holds {} counted storm{} with an EI30 of {} together; that is a part, not a yearly value",
        storms, storms == 1 ? "" : "s", both(sum));
}

/// Mean, variation and half width of ln R with the annual values in; the last three figures make the range.
source::Steps steps_of(const GaugeErosivity& gauge, const std::vector<double>& annual, double R, double variation,
                       double half) {
    const source::Origin doubt = source::origin_of("long-term-erosivity");
    const auto n = static_cast<double>(annual.size());
    const double degrees = usual_degrees + n - 1.0;
    const double of_mean = std::sqrt(std::log(1.0 + variation * variation / n));
    source::Steps steps;
    if (gauge.interval_factor > 1.0)
        steps.push_back({"f",
                         fmt::format("factor for depths every {:g} minutes, already in the EI30 of each year",
                                     gauge.interval_min.value_or(0.0)),
                         "", "", gauge.interval_factor, "1", source::origin_of("interval-factor")});
    std::string squares;
    for (const double value : annual) squares += " + (" + in_working(value) + " / " + in_working(R) + " - 1)^2";
    steps.push_back({"R", "rain erosivity, mean EI30 of " + years_in_words(gauge.long_term), "sum EI30 / n",
                     "(" + source::sum_in_working(annual) + ") / " + in_working(n), R, unit,
                     energy_origin(gauge.energy)});
    steps.push_back({"v", "variation from year to year, that of the years pooled with 0.45 on four degrees of freedom",
                     "sqrt((4 x 0.45^2 + sum (EI30 / R - 1)^2) / (4 + n - 1))",
                     "sqrt((4 x 0.45^2" + squares + ") / " + in_working(degrees) + ")", variation, "1", doubt});
    steps.push_back({"t", "Student's t that holds 8 in 10 on " + in_working(degrees) + " degrees of freedom", "", "",
                     half / of_mean, "1", doubt});
    steps.push_back(
        {"h", "half width of ln R that holds 8 in 10", "t sqrt(ln(1 + v^2 / n))",
         in_working(half / of_mean) + " x sqrt(ln(1 + " + in_working(variation) + "^2 / " + in_working(n) + "))", half,
         "1", doubt});
    return steps;
}

source::Remarks remarks_of(const GaugeErosivity& gauge, double R) {
    source::Remarks remarks = gauge.remarks;
    const auto n = gauge.long_term.years.size();
    const bool brown_foster = gauge.energy == RainEnergy::brown_foster;
    const double other = brown_foster ? gauge.long_term.R_537.central : gauge.long_term.R_brown_foster.central;
    remarks.push_back(
        {n < few_years ? source::Weight::caution : source::Weight::note, "rain-gauge",
         fmt::format("R of {} is worked out storm by storm from a gauge record, {} with the {} (with the {} it would "
                     "be {}). Its range holds the doubt of having these years only; a few large storms decide, and {} "
                     "years are customary.{}",
                     both(R), years_in_words(gauge.long_term), energy_words(gauge.energy),
                     energy_words(brown_foster ? RainEnergy::handbook_537 : RainEnergy::brown_foster), both(other),
                     customary_years,
                     n < few_years ? " With so few, a map's R for the place is the better value." : "")});
    return remarks;
}

}  // namespace

GaugeErosivity gauge_erosivity(const GaugeRecord& record, RainEnergy energy, source::Origin origin) {
    const RecordErosivity result = erosivity_of_record(record);
    auto long_term = long_term_erosivity(record, result);
    if (!long_term) throw std::invalid_argument(why_none(result));
    GaugeErosivity gauge;
    gauge.long_term = std::move(*long_term);
    gauge.energy = energy;
    gauge.interval_min = record.fixed_interval_min;
    gauge.interval_factor = result.interval_factor;
    gauge.half_month_share = result.half_month_share;
    for (const source::Remark& remark : result.remarks)
        // Twelve months on end stand in for the calendar year, and how few the years are is said with R.
        if (remark.code != "record-no-full-year" && remark.code != "record-short") gauge.remarks.push_back(remark);
    gauge.record = std::move(origin);
    return gauge;
}

spread::Uncertain erosivity_of_gauge(const GaugeErosivity& gauge) {
    const std::vector<double> annual = annual_values(gauge);
    double variation = 0.0;
    const spread::Interval mean = mean_of_years(annual, variation);
    const double half = std::log(mean.high / mean.central);
    constexpr double wider = spread::score_of_stated_range / spread::score_of_80_percent;
    spread::Stated stated;
    stated.value = mean.central;
    stated.range = spread::Range{mean.central * std::exp(-wider * half), mean.central * std::exp(wider * half)};
    stated.origin = energy_origin(gauge.energy);
    stated.origin.from = fmt::format("gauge record, {}, {}; record: {}", years_in_words(gauge.long_term),
                                     energy_words(gauge.energy), gauge.record.from);
    spread::Uncertain result =
        spread::with_spread(stated, "erosivity-given", steps_of(gauge, annual, mean.central, variation, half));
    result.spread_origin = source::origin_of("long-term-erosivity");
    source::Step& range = result.steps.back();
    range.words = "range that holds it 19 times in 20, from the years at hand";
    range.origin = result.spread_origin;
    const auto end = [&](const char* sign, double free, double kept) {
        return source::held_working(
            in_working(mean.central) + " x exp(" + sign + in_working(wider) + " x " + in_working(half) + ")", free,
            kept);
    };
    range.working = end("-", stated.range->low, result.low);
    range.upper_working = end("", stated.range->high, result.high);
    result.remarks = remarks_of(gauge, mean.central);
    return result;
}

}  // namespace soilhold::factors
