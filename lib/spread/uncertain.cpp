#include "spread/uncertain.h"

#include <algorithm>
#include <cmath>

#include "source/reference_table.h"

namespace soilhold::spread {

bool Uncertain::same_statement(const Uncertain& other) const {
    return central == other.central && low == other.low && high == other.high && shape == other.shape &&
           origin.from == other.origin.from;
}

Uncertain exactly(double value, source::Origin origin) {
    Uncertain result;
    result.central = result.low = result.high = value;
    result.origin = origin;
    result.spread_origin = std::move(origin);
    return result;
}

Uncertain with_spread(const Stated& stated, std::string_view kind) {
    const source::Row& row = source::row_where(source::table("default-spreads"), "kind", kind);
    Uncertain result;
    result.central = stated.value;
    result.origin = stated.origin;
    result.shape = row.text("shape") == "normal" ? Shape::normal : Shape::lognormal;
    result.least = row.number("least");
    result.most = row.number("most");
    if (stated.range) {
        result.low = stated.range->low;
        result.high = stated.range->high;
        result.spread_origin = stated.origin;
        if (result.low == result.high) result.shape = Shape::exact;
    } else {
        result.low =
            result.shape == Shape::normal ? stated.value + row.number("low") : stated.value * row.number("low");
        result.high =
            result.shape == Shape::normal ? stated.value + row.number("high") : stated.value * row.number("high");
        result.spread_origin = {row.text("source"), "default-spreads", source::standing_from(row.text("standing"))};
    }
    result.low = std::clamp(result.low, result.least, result.central);
    result.high = std::clamp(result.high, result.central, std::max(result.most, result.central));
    return result;
}

double at_score(const Uncertain& input, double z) {
    if (input.shape == Shape::exact) return input.central;
    double value = input.central;
    if (input.shape == Shape::normal) {
        const double side = z < 0 ? input.central - input.low : input.high - input.central;
        value += z / score_of_stated_range * side;
    } else {
        const double side = z < 0 ? std::log(input.central / input.low) : std::log(input.high / input.central);
        value *= std::exp(z / score_of_stated_range * side);
    }
    return std::clamp(value, input.least, std::max(input.most, input.central));
}

double log_sd(const Uncertain& input) {
    if (input.shape == Shape::exact || input.low <= 0) return 0.0;
    return std::log(input.high / input.low) / (2 * score_of_stated_range);
}

}  // namespace soilhold::spread
