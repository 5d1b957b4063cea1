#include "soiltest/fairness_rules.h"

#include <gtest/gtest.h>

#include "source/citation.h"
#include "source/reference_table.h"

namespace soilhold::soiltest {
namespace {

TEST(FairnessRules, HoldWhatTheTradeDoes) {
    // Common practice, no source: at least a day of air-drying; loose topsoil soaks 60 to 90 s.
    EXPECT_EQ(fairness_rules().least_drying_days, 1.0);
    EXPECT_EQ(fairness_rules().least_soak_s, 60.0);
    EXPECT_EQ(fairness_rules().most_soak_s, 90.0);
}

TEST(FairnessRules, NoneClaimsASourceThatWasNotFound) {
    for (const source::Row& row : source::table("fairness-rules").rows) {
        const source::Standing standing = source::standing_from(row.text("standing"));
        EXPECT_TRUE(standing == source::Standing::our_assumption || standing == source::Standing::common_practice)
            << row.text("rule");
        EXPECT_TRUE(row.text("weight") == "hard" || row.text("weight") == "soft") << row.text("rule");
    }
}

}  // namespace
}  // namespace soilhold::soiltest
