#include "watershed/ranking.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <cmath>
#include <stdexcept>

#include "spread/independent.h"

namespace soilhold::watershed {
namespace {

using testing::Each;
using testing::Field;

TEST(Ranking, WithoutDoubtIsTheOrder) {
    const std::vector<Ranked> fields = {{5}, {9}, {7}, {1}};
    const auto ranks = ranking(fields, {.top = 2});
    const std::size_t places[] = {3, 1, 2, 4};
    for (std::size_t f = 0; f < 4; ++f) {
        EXPECT_EQ(ranks[f].place, places[f]);
        EXPECT_EQ(ranks[f].likely_first, places[f]);
        EXPECT_EQ(ranks[f].likely_last, places[f]);
        EXPECT_EQ(ranks[f].tie_group, places[f]);
        EXPECT_EQ(ranks[f].chance_in_top, places[f] <= 2 ? 1 : 0);
    }
}

TEST(Ranking, ChanceOfTwoFieldsIsTheNormalLaws) {
    // ln 1.5 / (0.3 sqrt 2) = 0.9557; the normal law gives 0.8304 (any table of it) for the larger to come first.
    const std::vector<Ranked> fields = {{1.5, 0.3}, {1.0, 0.3}};
    const auto ranks = ranking(fields, {.top = 1, .draws = 40000});
    EXPECT_NEAR(ranks[0].chance_in_top, 0.8304, 0.006);
    EXPECT_NEAR(ranks[0].chance_in_top + ranks[1].chance_in_top, 1, 1e-12);
    EXPECT_EQ(ranks[1].tie_group, 2U) << "it comes first in one draw of six";
}

TEST(Ranking, WhatAGroupSharesDoesNotMixItsFields) {
    // One soil's K in doubt moves both together: their order stays sure.
    const std::vector<Ranked> fields = {{1.05, 0, 0.5, 3}, {1.0, 0, 0.5, 3}};
    EXPECT_EQ(ranking(fields, {.top = 1})[0].chance_in_top, 1);
    const std::vector<Ranked> two_soils = {{1.05, 0, 0.5, 3}, {1.0, 0, 0.5, 4}};
    const auto ranks = ranking(two_soils, {.top = 1});
    EXPECT_LT(ranks[0].chance_in_top, 0.65);
    EXPECT_THAT(ranks, Each(Field(&Rank::tie_group, 1U)));
}

TEST(Ranking, OneSourceOfDoubtMovesEachFieldByItsOwnMeasure) {
    const SharedDoubt alike{7, -0.5, 0.5}, other{8, -0.5, 0.5}, half{7, -0.25, 0.25};
    // Alike: the order stays. Another source: ln 1.05 / (0.5 / 1.96 x sqrt 2) = 0.135, the normal law gives 0.554. Half
    // as far: ln 1.05 / (0.25 / 1.96) = 0.383, 0.649.
    EXPECT_EQ(ranking({{{1.05, 0, 0, 0, {alike}, {}}, {1.0, 0, 0, 1, {alike}, {}}}}, {.top = 1})[0].chance_in_top, 1);
    const RankSettings many{.top = 1, .draws = 40000};
    EXPECT_NEAR(ranking({{{1.05, 0, 0, 0, {alike}, {}}, {1.0, 0, 0, 1, {other}, {}}}}, many)[0].chance_in_top, 0.554,
                0.008);
    EXPECT_NEAR(ranking({{{1.05, 0, 0, 0, {alike}, {}}, {1.0, 0, 0, 1, {half}, {}}}}, many)[0].chance_in_top, 0.649,
                0.008);
}

TEST(Ranking, WhatIsLeftOfAWholeKeepsOnlyTheDoubtThatDoesNotCancel) {
    // 10 - 6 against 3.99: with one error for whole and taken the 4 moves as the error does, as the 3.99 does.
    const SharedDoubt alike{7, -0.5, 0.5}, other{8, -0.5, 0.5};
    const Ranked against{3.99, 0, 0, 1, {alike}, {}};
    EXPECT_EQ(ranking({{{4, 0, 0, 0, {alike}, Taken{6, 0, {alike}}}, against}}, {.top = 1})[0].chance_in_top, 1);
    // With two errors it is far less sure, and never below 0.
    const auto unsure = ranking({{{4, 0, 0, 0, {alike}, Taken{6, 0, {other}}}, against}}, {.top = 1});
    EXPECT_LT(unsure[0].chance_in_top, 0.7);
    const auto own = ranking({{{4, 0, 0, 0, {}, Taken{6, 0.3, {}}}, {3.99, 0, 0, 1, {}, {}}}}, {.top = 1});
    EXPECT_NEAR(own[0].chance_in_top, 0.5, 0.06);
}

TEST(Ranking, ChancesOfAllFieldsMakeTheTop) {
    EXPECT_TRUE(rc::check("any fields", [] {
        const auto values = *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 1000)));
        std::vector<Ranked> fields;
        for (const int value : values) fields.push_back({value / 10.0, 0.4, 0.2, static_cast<std::size_t>(value % 3)});
        const std::size_t top = *rc::gen::inRange<std::size_t>(1, 8);
        double sum = 0;
        for (const Rank& rank : ranking(fields, {.top = top, .draws = 64})) {
            sum += rank.chance_in_top;
            RC_ASSERT(rank.likely_first <= rank.likely_last);
        }
        RC_ASSERT(std::abs(sum - static_cast<double>(std::min(top, fields.size()))) < 1e-9);
    }));
}

TEST(Ranking, RefusesWhatIsNoNumber) {
    EXPECT_THROW(ranking(std::vector<Ranked>{{std::nan("")}}), std::invalid_argument);
    EXPECT_THROW(ranking(std::vector<Ranked>{{1, -0.1}}), std::invalid_argument);
    EXPECT_TRUE(ranking(std::vector<Ranked>{}).empty());
}

TEST(CarriedByTop, IsTheShareOfTheFirstFields) {
    // ten fields, 20 + 15 of 80 in all
    const std::vector<double> tons = {5, 20, 5, 5, 15, 5, 5, 5, 5, 10};
    EXPECT_NEAR(carried_by_top(tons, 0.2), 35.0 / 80, 1e-12);
    EXPECT_EQ(carried_by_top(std::vector<double>{}, 0.2), 0);
}

TEST(IndependentScores, AreNormalAndUnrelated) {
    const auto a = spread::independent_scores(7, 20000, 1), b = spread::independent_scores(8, 20000, 1);
    double mean = 0, square = 0, product = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        mean += a[i] / 20000;
        square += a[i] * a[i] / 20000;
        product += a[i] * b[i] / 20000;
    }
    // four standard errors of each
    EXPECT_NEAR(mean, 0, 4 / std::sqrt(20000.0));
    EXPECT_NEAR(square, 1, 4 * std::sqrt(2 / 20000.0));
    EXPECT_NEAR(product, 0, 4 / std::sqrt(20000.0));
    EXPECT_EQ(a, spread::independent_scores(7, 20000, 1));
}

}  // namespace
}  // namespace soilhold::watershed
