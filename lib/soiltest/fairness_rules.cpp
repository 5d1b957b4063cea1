#include "soiltest/fairness_rules.h"

#include <string_view>

#include "source/reference_table.h"

namespace soilhold::soiltest {

const FairnessRules& fairness_rules() {
    static const FairnessRules rules = [] {
        const auto value = [](std::string_view rule) {
            return source::row_where(source::table("fairness-rules"), "rule", rule).number("value");
        };
        return FairnessRules{.erodibility_difference_us = value("erodibility_difference_us"),
                             .gradient_difference = value("gradient_difference"),
                             .least_drying_days = value("least_drying_days"),
                             .drying_difference_days = value("drying_difference_days"),
                             .depth_difference_mm = value("depth_difference_mm"),
                             .recent_tillage_days = value("recent_tillage_days"),
                             .clod_size_overlap = value("clod_size_overlap"),
                             .clods_for_a_number = value("clods_for_a_number"),
                             .clods_for_a_picture = value("clods_for_a_picture"),
                             .date_difference_days = value("date_difference_days"),
                             .least_soak_s = value("least_soak_s"),
                             .most_soak_s = value("most_soak_s"),
                             .dry_ground_days = value("dry_ground_days"),
                             .soft_breaks_allowed = value("soft_breaks_allowed")};
    }();
    return rules;
}

}  // namespace soilhold::soiltest
