/// The soak tests of one field in numbers, spots as replicates; and two fields set against each other.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "soiltest/record.h"
#include "source/remark.h"

namespace soilhold::soiltest {

/// Mean class over spots (each spot's mean counts once), its standard error, the counts a reader can see.
struct SlakeSummary {
    int clods = 0;  ///< scored, void ones left out
    int spots = 0;
    std::array<int, 7> by_class{};  ///< clods in class 0..6
    double mean_class = 0.0;
    std::optional<double> standard_error;  ///< of the mean over spots; none with fewer than two spots
    std::optional<double> sd_all_clods;
    std::vector<double> means{};  ///< of the spots, in their order
    int held = 0;                 ///< class 5 and 6: a quarter or more left after the dips
    int fell_apart = 0;           ///< class 0 to 3: half gone within five minutes
    int floated = 0;
    int left_out = 0;  ///< held by a stone or root
};

struct SlumpSummary {
    int holds = 0, partial = 0, slurry = 0;
    int replicates() const { return holds + partial + slurry; }
    SlumpVerdict typical = SlumpVerdict::partial;  ///< the median verdict
};

struct MeanSummary {
    int spots = 0;
    double mean = 0.0;
    std::optional<double> standard_error;
    std::vector<double> spot_values{};  ///< one a spot, in their order
};

/// All tests of one record. What the record does not hold stays empty.
struct Summary {
    std::optional<SlakeSummary> slake;
    std::optional<SlumpSummary> slump;
    std::optional<MeanSummary> water_stable_pct;
    std::optional<MeanSummary> mean_weight_diameter_mm;
    Cloudiness cloudiness = Cloudiness::not_recorded;
    std::optional<double> drying_days;  ///< as recorded: less than a day leaves clods half-dry
    SpotPosition position = SpotPosition::not_recorded;
    source::Remarks remarks;  ///< few clods, all sixes in sand, soak time outside 60-90 s, dried less than a day, ...
};

/// @param texture_class  "" when unknown; sand makes a remark
Summary summarise(const Record& record, const std::string& texture_class);

/// "sand", "loamy fine sand", "gravelly loam": soil in which clods hold or fall for other reasons than farming.
bool is_sandy(const std::string& texture_class);
bool is_gravelly(const std::string& texture_class);

/// Means of the spots that have a scored clod, in their order: the replicates.
std::vector<double> spot_means(const Record& record);

/// Two fields of a fair pair: how often a clod of the second outlasts one of the first.
struct Difference {
    double mean_class_difference = 0.0;  ///< second minus first
    double chance_second_higher = 0.5;   ///< Mann-Whitney U / (n1 n2), ties counted half, over spot means
    double p_value = 1.0;  ///< two-sided; exact for up to 10 spots a side without ties, else normal with tie correction
    std::string counts_sentence;  ///< "16 of 18 clods of 'North' held; 3 of 18 of 'South' did."
};

/// @throws std::invalid_argument when either has no slake test
Difference difference(const Record& first, const std::string& first_name, const Record& second,
                      const std::string& second_name);

}  // namespace soilhold::soiltest
