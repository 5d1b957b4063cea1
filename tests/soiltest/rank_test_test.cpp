#include "soiltest/rank_test.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>
#include <vector>

namespace soilhold::soiltest {
namespace {

using Values = std::vector<double>;

// The expected figures of this file come from a separate enumeration of every split of the values into two groups
// (exact) or from the variance of the midranks (ties), written in another language for this purpose.

TEST(RankTest, ThreeAgainstThreeApartIsOneInTen) {
    const RankTest test = rank_test({1.1, 2.3, 2.9}, {3.4, 4.0, 5.2});
    EXPECT_TRUE(test.exact);
    EXPECT_EQ(test.u_second, 9.0);
    EXPECT_EQ(test.chance_higher, 1.0);
    EXPECT_NEAR(test.p_value, 0.1, 1e-12);  // 2 of the 20 splits
}

TEST(RankTest, UnequalGroupsAgreeWithEveryArrangement) {
    const RankTest test = rank_test({1.0, 2.0, 3.5, 4.2}, {2.5, 3.0, 4.5, 5.0, 5.5});
    EXPECT_EQ(test.u_second, 16.0);
    EXPECT_NEAR(test.p_value, 0.19047619047619047, 1e-12);
}

TEST(RankTest, SixSpotsASideAgreeWithEveryArrangement) {
    const RankTest test = rank_test({1.7, 2.4, 1.9, 2.6, 3.1, 2.2}, {2.0, 3.3, 4.1, 2.8, 4.6, 5.0});
    EXPECT_EQ(test.u_second, 31.0);
    EXPECT_NEAR(test.p_value, 0.04112554112554113, 1e-12);
}

TEST(RankTest, EightASideAgreeWithEveryArrangement) {
    const RankTest test = rank_test({3, 1, 4, 1.5, 9, 2.6, 5, 3.5}, {8, 9.7, 9.3, 2.3, 8.4, 6, 2.4, 3.8});
    EXPECT_EQ(test.u_second, 46.0);
    EXPECT_NEAR(test.p_value, 0.16052836052836053, 1e-12);
}

TEST(RankTest, TiesTakeTheNormalLawWithTheirCorrection) {
    const RankTest spots =
        rank_test({5.0 / 3, 7.0 / 3, 2, 8.0 / 3, 2, 7.0 / 3}, {16.0 / 3, 5, 16.0 / 3, 5, 17.0 / 3, 14.0 / 3});
    EXPECT_FALSE(spots.exact);
    EXPECT_NEAR(spots.p_value, 0.00477182171379712, 1e-12);
    const RankTest many = rank_test({1, 2, 2, 3, 3, 3}, {2, 3, 3, 4, 4});
    EXPECT_EQ(many.u_second, 23.0);
    EXPECT_NEAR(many.p_value, 0.14582541398394824, 1e-12);
}

TEST(RankTest, LargeGroupsTakeTheNormalLaw) {
    Values first, second;
    for (int i = 1; i < 13; ++i) first.push_back(i);
    for (int i = 1; i < 12; ++i) second.push_back(i + 3.5);
    const RankTest test = rank_test(first, second);
    EXPECT_FALSE(test.exact);
    EXPECT_EQ(test.u_second, 96.0);
    EXPECT_NEAR(test.p_value, 0.06943183161594259, 1e-12);
}

TEST(RankTest, EqualValuesSayNothing) {
    const RankTest test = rank_test({6, 6, 6}, {6, 6, 6});
    EXPECT_EQ(test.p_value, 1.0);
    EXPECT_EQ(test.chance_higher, 0.5);
}

TEST(RankTest, AnEmptySideIsRefused) { EXPECT_THROW(rank_test({}, {1.0}), std::invalid_argument); }

TEST(RankTest, SwappingTheSidesTurnsTheChanceAndKeepsP) {
    EXPECT_TRUE(rc::check([](const std::vector<unsigned char>& a, const std::vector<unsigned char>& b) {
        RC_PRE(!a.empty() && !b.empty());
        const Values first(a.begin(), a.end()), second(b.begin(), b.end());
        const RankTest there = rank_test(first, second), back = rank_test(second, first);
        RC_ASSERT(std::abs(there.chance_higher + back.chance_higher - 1.0) < 1e-12);
        RC_ASSERT(std::abs(there.p_value - back.p_value) < 1e-12);
        RC_ASSERT(there.p_value > 0.0 && there.p_value <= 1.0);
    }));
}

}  // namespace
}  // namespace soilhold::soiltest
