#include "structure/expected_stability.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "handbook/row_file.h"

namespace soilhold::structure {
namespace {

/// aggregate-nrcs-wsa-suitable.csv: Soil Quality Test Kit Guide, from memory.
class SuitableRow : public testing::TestWithParam<rows::Row> {};

TEST_P(SuitableRow, TheTableIsMetAtItsRows) {
    const rows::Row& row = GetParam();
    const double percent = row.value("percent");
    const double found = row.text("by") == "clay" ? suitable_by_clay(percent) : suitable_by_organic_matter(percent);
    EXPECT_DOUBLE_EQ(found, row.value("suitable_wsa_pct"));
}

INSTANTIATE_TEST_SUITE_P(Rows, SuitableRow, testing::ValuesIn(rows::read("aggregate-nrcs-wsa-suitable.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(ExpectedStability, LiesHalfwayBetweenClayAndOrganicMatter) {
    // By hand: clay 18 % -> 65 + 5 * 8/10 = 69; OM 2.5 % -> 75 + 2 * 0.5/2 = 75.5; half of both 72.25.
    EXPECT_DOUBLE_EQ(expected_stability(18.0, 2.5, Credited::no_till, CountingMode::credited), 72.25);
}

TEST(ExpectedStability, FollowsTheManagementThatCoverCredits) {
    EXPECT_DOUBLE_EQ(expected_stability(18.0, 2.5, Credited::tilled, CountingMode::credited), 60.25);
    EXPECT_DOUBLE_EQ(expected_stability(18.0, 2.5, Credited::reduced, CountingMode::credited), 66.25);
}

TEST(ExpectedStability, CoverOnlyCountingExpectsTilledGround) {
    for (const Credited credited : {Credited::tilled, Credited::reduced, Credited::no_till})
        EXPECT_DOUBLE_EQ(expected_stability(18.0, 2.5, credited, CountingMode::cover_only), 60.25);
}

TEST(ExpectedStability, TheEndsOfTheTableHoldBeyondIt) {
    EXPECT_DOUBLE_EQ(suitable_by_clay(1.0), 60.0);
    EXPECT_DOUBLE_EQ(suitable_by_organic_matter(20.0), 85.0);
}

TEST(ExpectedStability, SharesOffTheScaleAreRefused) {
    EXPECT_THROW(expected_stability(-1.0, 2.0, Credited::tilled, CountingMode::credited), std::invalid_argument);
    EXPECT_THROW(expected_stability(20.0, 101.0, Credited::tilled, CountingMode::credited), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::structure
