#include "structure/links.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <stdexcept>

#include "handbook/row_file.h"

namespace soilhold::structure {
namespace {

/// aggregate-link-checkvalues.csv: the three links worked by a separate sketch; proves arithmetic only.
class LinkRow : public testing::TestWithParam<rows::Row> {};

TEST_P(LinkRow, EachLinkAndThePooledValueAgree) {
    const rows::Row& row = GetParam();
    const Links found = links(row.value("W"), row.value("W_ref"), row.value("K_us"));
    const double printed = 0.5e-5 + 1e-9;  // the rows carry five decimals
    EXPECT_NEAR(found.nomograph, row.value("mA"), printed);
    ASSERT_EQ(found.unstable_fraction.has_value(), !row.empty("mB"));
    if (found.unstable_fraction) {
        EXPECT_NEAR(*found.unstable_fraction, row.value("mB"), printed);
    }
    EXPECT_NEAR(found.interrill, row.value("mC"), printed);
    EXPECT_NEAR(std::exp(pooled_log(found)), row.value("m_pooled"), printed);
}

INSTANTIATE_TEST_SUITE_P(Rows, LinkRow, testing::ValuesIn(rows::read("aggregate-link-checkvalues.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(Links, OneStructureCodeAndHalfAPermeabilityCodeAtTwentySixPoints) {
    // 1 + (0.0325 + 0.5 * 0.025)/0.30 = 1.15, worked by hand
    EXPECT_NEAR(links(40.0, 66.0, 0.30).nomograph, 1.15, 1e-12);
    EXPECT_NEAR(links(0.0, 66.0, 0.30).nomograph, 1.15, 1e-12) << "never more than one code";
}

TEST(Links, TheUnstableFractionIsLeftOutBelowItsK) {
    EXPECT_FALSE(links(40.0, 60.0, 0.1499).unstable_fraction);
    EXPECT_TRUE(links(40.0, 60.0, 0.15).unstable_fraction);
}

TEST(Links, TinyKKeepsTheLogarithmDefined) {
    EXPECT_EQ(links(95.0, 50.0, 0.02).nomograph, 0.3);
    EXPECT_TRUE(std::isfinite(pooled_log(links(95.0, 50.0, 0.001))));
}

TEST(Links, TheSlakedFractionNeverRunsOutNorTurnsWild) {
    // By hand: W 100 counts as 98 and 100 - 95 as 15, so m_C = 0.5 + 0.5 * 2/15 and 0.5 + 0.5 * 50/15.
    EXPECT_NEAR(links(100.0, 95.0, 0.3).interrill, 0.5 + 1.0 / 15.0, 1e-12);
    EXPECT_NEAR(links(50.0, 95.0, 0.3).interrill, 0.5 + 25.0 / 15.0, 1e-12);
}

TEST(Links, MoreStableNeverMeansMoreLoss) {
    EXPECT_TRUE(rc::check([]() {
        const double reference = *rc::gen::inRange(200, 900) / 10.0;
        const double K = *rc::gen::inRange(5, 70) / 100.0;
        const double W = *rc::gen::inRange(0, 950) / 10.0;
        const double more = W + *rc::gen::inRange(0, 50) / 10.0;
        RC_ASSERT(pooled_log(links(more, reference, K)) <= pooled_log(links(W, reference, K)) + 1e-12);
        // Above 85 % the guard against a tiny slaked fraction acts, and link C falls below 1 at the expectation itself.
        if (reference <= 85.0) RC_ASSERT(std::abs(pooled_log(links(reference, reference, K))) < 1e-12);
    }));
}

TEST(Links, NonsenseIsRefused) {
    EXPECT_THROW(links(50.0, 60.0, 0.0), std::invalid_argument);
    EXPECT_THROW(links(std::nan(""), 60.0, 0.3), std::invalid_argument);
}

TEST(Links, SpreadIsThatOfASample) {
    EXPECT_NEAR(spread_of({1.0, 2.0, 3.0}), 1.0, 1e-12);
    EXPECT_EQ(spread_of({1.0}), 0.0);
}

}  // namespace
}  // namespace soilhold::structure
