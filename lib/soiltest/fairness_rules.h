/// The thresholds by which two tests are called alike; each a row of data/reference/fairness-rules.csv.
/// @source common practice where the row says so; else our assumption
#pragma once

namespace soilhold::soiltest {

struct FairnessRules {
    double erodibility_difference_us;  ///< US K
    double gradient_difference;        ///< rise over run
    double least_drying_days;
    double drying_difference_days;
    double depth_difference_mm;
    double recent_tillage_days;
    double clod_size_overlap;  ///< share of the joint span of both size ranges
    double clods_for_a_number;
    double clods_for_a_picture;
    double date_difference_days;
    double least_soak_s, most_soak_s;
    double dry_ground_days;
    double soft_breaks_allowed;
};

const FairnessRules& fairness_rules();

}  // namespace soilhold::soiltest
