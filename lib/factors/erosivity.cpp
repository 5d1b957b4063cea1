#include "factors/erosivity.h"

#include <stdexcept>
#include <string>

#include "factors/rain_erosivity.h"

namespace soilhold::factors {

namespace {

const source::Remark not_for_snow{
    source::Weight::note, "rain-relation",
    "R comes from rain totals by a relation fitted in the United States. It is not meant for "
    "places where snow or long winter rain rules; the local office's R is better."};

using source::in_working;

constexpr const char* unit = "MJ mm/(ha h yr)";

source::Steps steps_by_annual_rain(const spread::Stated& rain, double R) {
    const std::string P = in_working(rain.value);
    const bool low = rain.value <= 850.0;
    return {{"P", "mean annual rain, as given", "", "", rain.value, "mm", rain.origin},
            {"R", low ? "rain erosivity, up to 850 mm a year" : "rain erosivity, above 850 mm a year",
             low ? "0.0483 P^1.610" : "587.8 - 1.219 P + 0.004105 P^2",
             low ? "0.0483 x " + P + "^1.610" : "587.8 - 1.219 x " + P + " + 0.004105 x " + P + "^2", R, unit,
             source::origin_of("rain-annual")}};
}

source::Steps steps_by_monthly_rain(const std::array<double, 12>& rain, const source::Origin& of_rain, double index,
                                    double R) {
    double year = 0;
    for (const double p : rain) year += p;
    const std::string F = in_working(index);
    const bool low = index < 55.0;
    return {
        {"P", "rain of the year, from the months p given", "sum p", source::sum_in_working(rain), year, "mm", of_rain},
        {"F", "modified Fournier index", "sum p^2 / P",
         "(" + source::sum_in_working(rain, "^2") + ") / " + in_working(year), index, "mm",
         source::origin_of("fournier-index")},
        {"R", low ? "rain erosivity, F below 55 mm" : "rain erosivity, F from 55 mm",
         low ? "0.7397 F^1.847" : "95.77 - 6.081 F + 0.4770 F^2",
         low ? "0.7397 x " + F + "^1.847" : "95.77 - 6.081 x " + F + " + 0.4770 x " + F + "^2", R, unit,
         source::origin_of("rain-monthly")}};
}

}  // namespace

spread::Uncertain erosivity(const RainDescription& rain) {
    if (rain.erosivity) return spread::with_spread(*rain.erosivity, "erosivity-given");
    if (rain.gauge) return erosivity_of_gauge(*rain.gauge);
    spread::Stated stated;
    spread::Uncertain result;
    if (rain.annual_rain_mm) {
        stated.value = erosivity_from_annual_rain(rain.annual_rain_mm->value);
        stated.origin = source::origin_of("rain-annual");
        stated.origin.from += "; rain: " + rain.annual_rain_mm->origin.from;
        result = spread::with_spread(stated, "erosivity-annual-rain",
                                     steps_by_annual_rain(*rain.annual_rain_mm, stated.value));
    } else if (rain.monthly_rain_mm) {
        const double index = modified_fournier_index(*rain.monthly_rain_mm);
        stated.value = erosivity_from_fournier_index(index);
        stated.origin = source::origin_of("rain-monthly");
        stated.origin.from += "; rain: " + rain.monthly_origin.from;
        result =
            spread::with_spread(stated, "erosivity-monthly-rain",
                                steps_by_monthly_rain(*rain.monthly_rain_mm, rain.monthly_origin, index, stated.value));
    } else {
        throw std::invalid_argument("no erosivity and no rain is described");
    }
    result.remarks.push_back(not_for_snow);
    return result;
}

}  // namespace soilhold::factors
