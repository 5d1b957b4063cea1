#include "soiltest/replicates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace soilhold::soiltest {

int spots_needed(double sd_classes, double difference_classes) {
    if (!(sd_classes > 0.0) || !(difference_classes > 0.0) || !std::isfinite(sd_classes) ||
        !std::isfinite(difference_classes))
        throw std::invalid_argument(fmt::format("a spread of {} and a difference of {} classes: both must be above 0",
                                                sd_classes, difference_classes));
    const double z = 1.96 + 0.8416;
    const double needed = std::ceil(2.0 * z * z * sd_classes * sd_classes / (difference_classes * difference_classes));
    // Past a million spots the answer is "it can't be found", and int must not overflow.
    return static_cast<int>(std::clamp(needed, 3.0, 1e6));
}

}  // namespace soilhold::soiltest
