/// A place for the tests of the calendar: months of the middle of the Corn Belt, round numbers from memory.
#pragma once

#include "rotation/climate.h"
#include "units/unit.h"

namespace soilhold::rotation {

inline Weather corn_belt_weather() {
    Weather weather;
    weather.month_temperature_C = ByMonth{-6.5, -4, 2.5, 9.5, 16, 21.5, 23.5, 22.5, 18, 11, 3.5, -4};
    weather.month_rain_mm = ByMonth{23, 28, 53, 90, 115, 125, 110, 105, 80, 65, 50, 32};
    weather.erosivity_share = half_months_of_sums({.01, .01, .03, .06, .14, .22, .20, .16, .09, .05, .02, .01});
    weather.erosivity = 160 * units::erosivity_si_per_us;
    return weather;
}

inline Climate corn_belt() { return climate_of(corn_belt_weather()); }

}  // namespace soilhold::rotation
