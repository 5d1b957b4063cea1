/// What a mean weight diameter (MWD) of aggregates after fast wetting says about crusting and runoff.
/// @source Le Bissonnais 1996, Eur. J. Soil Sci. 47:425-437, and ISO 10930:2012 (from memory);
///         data/reference/mwd-classes.csv
#pragma once

#include <string>

namespace soilhold::soiltest {

struct DiameterClass {
    std::string stability;  ///< "very unstable" .. "very stable"
    std::string crusting;   ///< how often the surface crusts
    std::string risk;       ///< of runoff and interrill erosion
};

/// The class of an MWD; a limit belongs to the class it opens. @param mwd_mm  mm, >= 0
/// @throws std::invalid_argument below 0 or not finite
DiameterClass diameter_class(double mwd_mm);

}  // namespace soilhold::soiltest
