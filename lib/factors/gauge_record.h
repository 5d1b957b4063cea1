/// Erosivity R from the record of a rain gauge: storms judged one by one, sums of years and of half months.
///
/// What was not recorded is told and never read as dry: a missing period ends a storm, a year with too little record
/// gives no annual value. Depths of fixed intervals blunt the peaks; their EI30 is raised by the factor of Yin et al.
/// @source storm rule and energy: storm.h, rain_energy.h. Interval factors: Yin et al. 2007, Catena 70:306-312
/// (456 storms
///         of five stations in China): 1.014 for 5 minutes and 1.730 for 60 (read); between them ln f goes straight
///         with the logarithm of the interval (our assumption), beyond 60 minutes there is none. AH 703 divides the
///         year into 24 half months (read)
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "factors/storm.h"
#include "source/remark.h"

namespace soilhold::factors {

struct Period {
    double start_min = 0.0;
    double end_min = 0.0;
    bool operator==(const Period&) const = default;
};

/// A gauge record in one form, whatever the gauge.
struct GaugeRecord {
    Rain rain;
    std::vector<Period> missing;  ///< in order, within the record
    Period whole;                 ///< first to last minute of the record
    std::optional<double> fixed_interval_min;
};

/// One tip of a bucket: the minute when it tipped.
struct Tip {
    double minute = 0.0;
    double depth_mm = 0.0;
};
/// One point of a chart: what had fallen by then since the chart began.
struct Breakpoint {
    double minute = 0.0;
    double total_mm = 0.0;
};
/// Depth of the interval that ends at this minute; nothing where the logger has no value.
struct Reading {
    double end_min = 0.0;
    std::optional<double> depth_mm;
};

/// Rain of a tip fell since the tip before it, but no longer than this (our assumption): slow rain that takes longer to
/// fill a bucket brings hardly any energy.
inline constexpr double longest_fill_min = 60.0;

/// Tips of one minute are summed; a tip of depth 0 marks that the gauge was alive. `whole` reaches from the first to
/// the last tip; what was missing between them the tips can't say.
/// @throws std::invalid_argument for tips out of order or below 0, missing periods that overlap or run backwards
GaugeRecord record_of_tips(const std::vector<Tip>& tips, std::vector<Period> missing = {});

/// @throws std::invalid_argument for points out of order or totals that fall
GaugeRecord record_of_breakpoints(const std::vector<Breakpoint>& points);

/// How intervals that no reading stands for are taken. Some loggers leave dry intervals out; say so only when it is
/// known.
enum class Unlisted { missing, dry };

/// @param interval_min  of the logger, > 0
/// @throws std::invalid_argument for readings out of order, closer than the interval or below 0
GaugeRecord record_of_readings(const std::vector<Reading>& readings, double interval_min,
                               Unlisted unlisted = Unlisted::missing);

struct JudgedStorm {
    Storm storm;
    bool counted = false;    ///< false: too little rain, by the rule
    bool cut_short = false;  ///< a missing period stands within six hours: the storm may have been larger
};

struct YearOfRain {
    int year = 0;
    double rain_mm = 0.0;
    double EI30_537 = 0.0;           ///< MJ mm/(ha h), counted storms
    double EI30_brown_foster = 0.0;  ///< MJ mm/(ha h), counted storms
    int storms = 0;                  ///< counted
    double recorded_share = 0.0;     ///< of the minutes of the year
};

struct RecordErosivity {
    std::vector<JudgedStorm> storms;  ///< all of them, in order
    std::vector<YearOfRain> years;
    double interval_factor = 1.0;  ///< already in the EI30 of years and in R, not in that of storms
    std::optional<double> R_537;   ///< mean of full years, MJ mm/(ha h yr); none when no year is full
    std::optional<double> R_brown_foster;
    std::array<double, 24> half_month_share{};  ///< of EI30 (Brown & Foster) over full years, or over all if none is
    double missing_days = 0.0;
    source::Remarks remarks;
};

/// A year counts as full with this share of its minutes recorded (our assumption).
inline constexpr double least_recorded_share = 0.95;

/// Factor that raises EI30 of fixed intervals to that of breakpoints; 1 up to one minute.
/// @throws std::invalid_argument above 60 minutes: such depths say too little of peaks
double interval_factor(double interval_min);

/// @throws std::invalid_argument as storms and interval_factor do
RecordErosivity erosivity_of_record(const GaugeRecord& record, const StormRule& rule = {});

}  // namespace soilhold::factors
