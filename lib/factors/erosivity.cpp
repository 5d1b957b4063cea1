#include "factors/erosivity.h"

#include <stdexcept>

#include "factors/rain_erosivity.h"

namespace soilhold::factors {

namespace {

const source::Remark not_for_snow{
    source::Weight::note, "rain-relation",
    "R comes from rain totals by a relation fitted in the United States. It is not meant for "
    "places where snow or long winter rain rules; the local office's R is better."};

}  // namespace

spread::Uncertain erosivity(const RainDescription& rain) {
    if (rain.erosivity) return spread::with_spread(*rain.erosivity, "erosivity-given");
    spread::Stated stated;
    spread::Uncertain result;
    if (rain.annual_rain_mm) {
        stated.value = erosivity_from_annual_rain(rain.annual_rain_mm->value);
        stated.origin = source::origin_of("rain-annual");
        stated.origin.from += "; rain: " + rain.annual_rain_mm->origin.from;
        result = spread::with_spread(stated, "erosivity-annual-rain");
    } else if (rain.monthly_rain_mm) {
        stated.value = erosivity_from_fournier_index(modified_fournier_index(*rain.monthly_rain_mm));
        stated.origin = source::origin_of("rain-monthly");
        stated.origin.from += "; rain: " + rain.monthly_origin.from;
        result = spread::with_spread(stated, "erosivity-monthly-rain");
    } else {
        throw std::invalid_argument("no erosivity and no rain is described");
    }
    result.remarks.push_back(not_for_snow);
    return result;
}

}  // namespace soilhold::factors
