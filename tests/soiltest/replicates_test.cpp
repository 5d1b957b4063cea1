#include "soiltest/replicates.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "handbook/row_file.h"

namespace soilhold::soiltest {
namespace {

/// aggregate-replicates.csv: two-sample formula, 5 % two-sided, power 80 %.
class ReplicateRow : public testing::TestWithParam<rows::Row> {};

TEST_P(ReplicateRow, SpotsAgree) {
    const rows::Row& row = GetParam();
    EXPECT_EQ(spots_needed(row.value("sd_between_spots_classes"), row.value("difference_to_detect_classes")),
              static_cast<int>(row.value("spots_per_field_80pct_power_5pct_two_sided")));
}

INSTANTIATE_TEST_SUITE_P(Rows, ReplicateRow, testing::ValuesIn(rows::read("aggregate-replicates.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(Replicates, NeverFewerThanThree) { EXPECT_EQ(spots_needed(0.1, 5.0), 3); }

TEST(Replicates, ATinyDifferenceDoesNotOverflow) { EXPECT_EQ(spots_needed(1.0, 1e-9), 1000000); }

TEST(Replicates, NothingToFindIsRefused) {
    EXPECT_THROW(spots_needed(1.0, 0.0), std::invalid_argument);
    EXPECT_THROW(spots_needed(-1.0, 1.0), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::soiltest
