#include "soiltest/slake_class.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "source/reference_table.h"

namespace soilhold::soiltest {

int slake_class_from(std::optional<double> seconds_to_half_loss, std::optional<double> left_pct) {
    if (seconds_to_half_loss && !(*seconds_to_half_loss >= 0.0 && std::isfinite(*seconds_to_half_loss)))
        throw std::invalid_argument(
            fmt::format("{} s until half the clod was gone: a time from 0 s on is wanted", *seconds_to_half_loss));
    if (left_pct && !(*left_pct >= 0.0 && *left_pct <= 100.0))
        throw std::invalid_argument(fmt::format("{} % left after the dips: between 0 and 100 % is wanted", *left_pct));
    if (seconds_to_half_loss) {
        if (*seconds_to_half_loss <= 5.0) return 1;
        if (*seconds_to_half_loss <= 30.0) return 2;
        if (*seconds_to_half_loss <= 300.0) return 3;
    }
    if (!left_pct)
        throw std::invalid_argument(
            "half of the clod stayed for five minutes, so its class needs the % left after five dips");
    if (*left_pct < 10.0) return 3;
    if (*left_pct < 25.0) return 4;
    if (*left_pct < 75.0) return 5;
    return 6;
}

std::string words_for_slake_class(int slake_class) {
    if (slake_class < 0 || slake_class > 6)
        throw std::invalid_argument(fmt::format("slake class {}: classes run from 0 to 6", slake_class));
    return source::row_where(source::table("slake-classes"), "class", std::to_string(slake_class)).text("words");
}

}  // namespace soilhold::soiltest
