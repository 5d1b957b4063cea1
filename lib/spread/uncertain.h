/// A value with its doubt and its source: what every input of an estimate is.
///
/// `low` and `high` hold the true value about 19 times in 20 (2.5 % and 97.5 %), which is how people give a spread when
/// asked for one; results are printed as central 80 % intervals (10 % and 90 %). Positive quantities that act by
/// multiplication are lognormal about their central value, with the two sides as wide as stated; angles and lengths
/// that may be off by a fixed amount are normal, cut at their limits.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "source/citation.h"
#include "source/remark.h"
#include "source/step.h"

namespace soilhold::spread {

struct Range {
    double low = 0.0;
    double high = 0.0;
    bool operator==(const Range&) const = default;
};

/// A figure as someone stated it: SI value, its range if one was given, and whose figure it is.
struct Stated {
    double value = 0.0;
    std::optional<Range> range;  ///< absolute, in the unit of `value`
    source::Origin origin;
    bool operator==(const Stated&) const = default;
};

enum class Shape {
    exact,      ///< no doubt: low = high = central
    lognormal,  ///< two-piece about the median `central`
    normal,     ///< two-piece about `central`, cut at `least` and `most`
};

struct Uncertain {
    double central = 0.0;
    double low = 0.0;   ///< 2.5 %
    double high = 0.0;  ///< 97.5 %
    Shape shape = Shape::exact;
    double least = 0.0;            ///< no draw is below
    double most = 1e300;           ///< no draw is above
    source::Origin origin;         ///< of the central value
    source::Origin spread_origin;  ///< of low and high
    source::Remarks remarks;
    source::Steps steps;  ///< how the central value came about, then its spread

    /// Whether two inputs are one and the same statement, so that their errors are the same error.
    bool same_statement(const Uncertain& other) const;
};

/// A value that is certain (a definition, a choice).
Uncertain exactly(double value, source::Origin origin);

/// The stated value with the stated range, or else with the default of its kind.
/// @param kind  a row of data/reference/default-spreads.csv: "erosivity-given", "erodibility-survey", "length", ...
/// @param working  how the value was worked out; without it the value counts as given, which is a step of its own
/// @throws std::out_of_range when there is no such kind
Uncertain with_spread(const Stated& stated, std::string_view kind, source::Steps working = {});

/// The value at standard normal score z (0: central, 1.96: high, -1.96: low).
double at_score(const Uncertain& input, double z);

/// The central 80 % that are printed, as a step of the working; none where the value is exact.
std::optional<source::Step> middle_step(const Uncertain& input, const std::string& unit);

/// Standard deviation of ln(value) where the shape is lognormal and even; the mean of both sides otherwise. For the
/// closed forms that check the draws.
double log_sd(const Uncertain& input);

/// z of 97.5 %.
inline constexpr double score_of_stated_range = 1.959963984540054;
/// z of 90 %, the edge of a central 80 % interval.
inline constexpr double score_of_80_percent = 1.2815515655446004;

}  // namespace soilhold::spread
