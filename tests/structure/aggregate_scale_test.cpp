#include "structure/aggregate_scale.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace soilhold::structure {
namespace {

using soiltest::MeanSummary;
using soiltest::SlakeSummary;
using soiltest::SlumpVerdict;

TEST(AggregateScale, AClassIsThirteenPointsFromTen) {
    EXPECT_DOUBLE_EQ(W_from_class(0.0), 10.0);
    EXPECT_DOUBLE_EQ(W_from_class(6.0), 88.0);
}

TEST(AggregateScale, SlakeDoubtJoinsSpotsAndCrosswalk) {
    SlakeSummary slake;
    slake.mean_class = 3.0;
    slake.standard_error = 0.5;
    EXPECT_NEAR(from_slake(slake).sd, std::sqrt(6.5 * 6.5 + 100.0), 1e-12);  // 13 * 0.5 and 10, by hand
}

TEST(AggregateScale, OneSpotIsDoubtedMoreThanSix) {
    SlakeSummary one, six;
    one.mean_class = six.mean_class = 3.0;
    six.standard_error = 0.14;
    EXPECT_GT(from_slake(one).sd, 1.5 * from_slake(six).sd);
    EXPECT_GT(from_water_stable({1, 60.0, {}}).sd, from_water_stable({6, 60.0, 3.0}).sd);
}

TEST(AggregateScale, WaterStableStandsForItself) {
    EXPECT_DOUBLE_EQ(from_water_stable({3, 63.0, 4.0}).W, 63.0);
    EXPECT_GE(from_water_stable({3, 63.0, 0.0}).sd, 5.0) << "three equal figures are not certainty";
}

TEST(AggregateScale, DiametersMeetTheirKnotsAndTheLinesBetween) {
    // 0.2:15 0.6:35 1.05:55 1.65:75 2.75:90, our assumption
    const double at[] = {0.1, 0.2, 0.6, 1.05, 1.65, 2.75, 4.0};
    const double W[] = {15, 15, 35, 55, 75, 90, 90};
    for (std::size_t i = 0; i < std::size(at); ++i)
        EXPECT_DOUBLE_EQ(from_mean_weight_diameter({3, at[i], 0.0}).W, W[i]) << at[i];
    EXPECT_NEAR(from_mean_weight_diameter({3, 0.4, 0.0}).W, 25.0, 1e-12);
    EXPECT_NEAR(from_mean_weight_diameter({3, 0.4, 0.1}).sd, std::hypot(5.0, 12.0), 1e-12);  // 50 %/mm * 0.1 mm
}

TEST(AggregateScale, SlumpHasThreeStepsWithWideDoubt) {
    EXPECT_EQ(from_slump(SlumpVerdict::holds).W, 75.0);
    EXPECT_EQ(from_slump(SlumpVerdict::partial).W, 50.0);
    EXPECT_EQ(from_slump(SlumpVerdict::slurry).W, 25.0);
    EXPECT_EQ(from_slump(SlumpVerdict::slurry).sd, 20.0);
}

TEST(AggregateScale, SeveralTestsWeighByTheirCertainty) {
    // By hand: weights 1/100 and 1/400, so (4 * 40 + 60)/5 = 44 and sd = sqrt(1/0.0125) = 8.944.
    const Observation both = combine({{40.0, 10.0}, {60.0, 20.0}});
    EXPECT_NEAR(both.W, 44.0, 1e-12);
    EXPECT_NEAR(both.sd, 8.94427191, 1e-8);
    EXPECT_THROW(combine({}), std::invalid_argument);
}

TEST(AggregateScale, EveryTestOfARecordIsRead) {
    soiltest::Summary tests;
    EXPECT_TRUE(observations(tests).empty());
    tests.slake = SlakeSummary{};
    tests.slump = soiltest::SlumpSummary{};
    tests.water_stable_pct = MeanSummary{3, 60.0, 3.0};
    tests.mean_weight_diameter_mm = MeanSummary{3, 1.0, 0.1};
    EXPECT_EQ(observations(tests).size(), 4u);
}

}  // namespace
}  // namespace soilhold::structure
