#include "spread/uncertain.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "source/reference_table.h"

namespace soilhold::spread {

namespace {

/// The two ends of a default spread with the numbers in; an end that a limit holds says so.
source::Step spread_step(const Uncertain& input, const source::Row& row, bool given) {
    source::Step step;
    step.words = given ? "range that holds it 19 times in 20, as given"
                       : "range that holds it 19 times in 20: " + row.text("meaning");
    step.value = input.low;
    step.upper = input.high;
    step.unit = row.text("unit");
    step.origin = input.spread_origin;
    if (given) return step;
    const auto end = [&](const char* column, double kept) {
        const double by = row.number(column);
        const std::string central = source::in_working(input.central);
        if (input.shape == Shape::normal)
            return source::held_working(central + (by < 0 ? " - " : " + ") + source::in_working(std::abs(by)),
                                        input.central + by, kept);
        return source::held_working(source::in_working(by) + " x " + central, input.central * by, kept);
    };
    step.working = end("low", input.low);
    step.upper_working = end("high", input.high);
    return step;
}

}  // namespace

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

Uncertain with_spread(const Stated& stated, std::string_view kind, source::Steps working) {
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
    result.steps = std::move(working);
    if (result.steps.empty())
        result.steps.push_back({row.text("symbol"), row.text("name") + ", as given", "", "", stated.value,
                                row.text("unit"), stated.origin});
    result.steps.push_back(spread_step(result, row, stated.range.has_value()));
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

std::optional<source::Step> middle_step(const Uncertain& input, const std::string& unit) {
    if (input.shape == Shape::exact) return std::nullopt;
    constexpr double share = score_of_80_percent / score_of_stated_range;
    const auto end = [&](double stated, double score) {
        const std::string central = source::in_working(input.central), to = source::in_working(stated);
        Uncertain free = input;
        free.least = -1e300;
        free.most = 1e300;
        const std::string working =
            input.shape == Shape::normal
                ? central + " + " + source::in_working(share) + " x (" + to + " - " + central + ")"
                : central + " x (" + to + " / " + central + ")^" + source::in_working(share);
        return source::held_working(working, at_score(free, score), at_score(input, score));
    };
    source::Step step;
    step.words = "the middle 80 %, from the range before";
    step.working = end(input.low, -score_of_80_percent);
    step.value = at_score(input, -score_of_80_percent);
    step.upper_working = end(input.high, score_of_80_percent);
    step.upper = at_score(input, score_of_80_percent);
    step.unit = unit;
    step.origin = input.spread_origin;
    return step;
}

double log_sd(const Uncertain& input) {
    if (input.shape == Shape::exact || input.low <= 0) return 0.0;
    return std::log(input.high / input.low) / (2 * score_of_stated_range);
}

}  // namespace soilhold::spread
