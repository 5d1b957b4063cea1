#include <gmock/gmock.h>

#include <cmath>

#include "spread/interval.h"
#include "spread/low_discrepancy.h"
#include "spread/uncertain.h"

namespace soilhold::spread {
namespace {

Stated stated(double value, std::optional<Range> range = {}) { return {value, range, {"test", "", {}}}; }

TEST(NormalScores, HaveTheMomentsOfTheNormalDistribution) {
    const Scores scores = normal_scores(20, 4096, 7);
    for (const auto& column : scores) {
        double sum = 0, squares = 0;
        for (const double z : column) {
            sum += z;
            squares += z * z;
        }
        EXPECT_NEAR(sum / 4096, 0.0, 0.01);
        EXPECT_NEAR(squares / 4096, 1.0, 0.02);
    }
}

TEST(NormalScores, OfTwoColumnsAreUncorrelated) {
    const Scores scores = normal_scores(20, 4096, 7);
    for (std::size_t d = 1; d < scores.size(); ++d) {
        double product = 0;
        for (std::size_t i = 0; i < 4096; ++i) product += scores[0][i] * scores[d][i];
        EXPECT_NEAR(product / 4096, 0.0, 0.03) << d;
    }
}

TEST(NormalScores, AreTheSameForTheSameSeedAndOthersForAnother) {
    EXPECT_EQ(normal_scores(5, 64, 3), normal_scores(5, 64, 3));
    EXPECT_NE(normal_scores(5, 64, 3), normal_scores(5, 64, 4));
}

TEST(NormalScores, RefuseNothingToDraw) {
    EXPECT_THROW(normal_scores(0, 10, 1), std::invalid_argument);
    EXPECT_THROW(normal_scores(3, 0, 1), std::invalid_argument);
}

TEST(Uncertain, PassesThroughItsStatedLimits) {
    const Uncertain cover = with_spread(stated(0.2, Range{0.1, 0.35}), "cover-given");
    // 97.5 % of a normal distribution lies below 1.959964 standard deviations, any table
    EXPECT_NEAR(at_score(cover, -1.959964), 0.10, 1e-6);
    EXPECT_DOUBLE_EQ(at_score(cover, 0), 0.2);
    EXPECT_NEAR(at_score(cover, 1.959964), 0.35, 1e-6);
}

TEST(Uncertain, StaysWithinWhatIsPossible) {
    const Uncertain steepness = with_spread(stated(0.005), "steepness");
    EXPECT_GT(at_score(steepness, -5), 0.0);
    const Uncertain practice = with_spread(stated(0.95), "practice");
    EXPECT_LE(at_score(practice, 5), 1.0);
}

TEST(Uncertain, WithoutAStatedSpreadSaysWhoseAssumptionItUses) {
    const Uncertain given = with_spread(stated(0.2), "cover-given");
    EXPECT_EQ(given.spread_origin.standing, source::Standing::our_assumption);
    EXPECT_LT(given.low, 0.2);
    EXPECT_GT(given.high, 0.2);
}

TEST(Uncertain, StatedAlikeIsOneStatement) {
    EXPECT_TRUE(with_spread(stated(0.2), "cover-given").same_statement(with_spread(stated(0.2), "cover-given")));
    Stated other = stated(0.2);
    other.origin.from = "someone else";
    EXPECT_FALSE(with_spread(stated(0.2), "cover-given").same_statement(with_spread(other, "cover-given")));
}

TEST(Quantile, InterpolatesBetweenOrderStatistics) {
    // Hyndman & Fan 1996 type 7, as R's quantile(c(1,2,3,4), 0.1) = 1.3; from memory, follows from the definition
    std::vector<double> draws = {4, 1, 3, 2};
    EXPECT_NEAR(quantile(draws, 0.1), 1.3, 1e-12);
    EXPECT_NEAR(quantile(draws, 0.5), 2.5, 1e-12);
    EXPECT_NEAR(quantile(draws, 1.0), 4, 1e-12);
}

TEST(Interval, OfLognormalDrawsIsTheClosedForm) {
    const Scores scores = normal_scores(1, 8192, 1);
    std::vector<double> draws;
    for (const double z : scores[0]) draws.push_back(10 * std::exp(0.4 * z));
    const Interval interval = interval_of(10, draws);
    EXPECT_NEAR(interval.low, 10 * std::exp(-0.4 * 1.2815516), 0.02);
    EXPECT_NEAR(interval.high, 10 * std::exp(0.4 * 1.2815516), 0.06);
}

}  // namespace
}  // namespace soilhold::spread
