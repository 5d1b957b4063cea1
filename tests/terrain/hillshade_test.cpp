#include "terrain/hillshade.h"

#include <gtest/gtest.h>

#include <cmath>

namespace soilhold::terrain {
namespace {

/// A plane that rises `east` and `north` metres a metre.
Grid<float> plane(double east, double north) {
    Grid<float> ground({7, 7, 10.0});
    for (std::int64_t r = 0; r < 7; ++r)
        for (std::int64_t c = 0; c < 7; ++c)
            ground(r, c) = static_cast<float>(10.0 * (east * static_cast<double>(c) - north * static_cast<double>(r)));
    return ground;
}

TEST(Hillshade, LevelGroundHasTheSineOfTheLightsHeight) {
    EXPECT_NEAR(hillshade(plane(0, 0))(3, 3), std::sin(M_PI / 4), 1e-6);
    EXPECT_NEAR(hillshade(plane(0, 0), {315, 30, 1})(3, 3), 0.5, 1e-6);
}

TEST(Hillshade, ASlopeThatFacesTheLightIsFullyLit) {
    // Falls towards the north-west at 45 degrees: the light stands at right angles over it.
    const double part = std::sqrt(0.5);
    EXPECT_NEAR(hillshade(plane(part, -part))(3, 3), 1.0, 1e-6);
    EXPECT_NEAR(hillshade(plane(-part, part))(3, 3), 0.0, 1e-6);  // and its back is grazed
}

TEST(Hillshade, ALightFromTheNorthShinesOnSlopesThatFallNorthward) {
    EXPECT_GT(hillshade(plane(0, -0.2), {0, 45, 1})(3, 3), hillshade(plane(0, 0.2), {0, 45, 1})(3, 3));
    EXPECT_NEAR(hillshade(plane(0.2, 0), {0, 45, 1})(3, 3), hillshade(plane(-0.2, 0), {0, 45, 1})(3, 3), 1e-6);
}

TEST(Hillshade, ExaggeratedHeightsAreTheSameAsHigherGround) {
    EXPECT_NEAR(hillshade(plane(0.1, 0.05), {315, 45, 3})(3, 3), hillshade(plane(0.3, 0.15))(3, 3), 1e-6);
}

TEST(Hillshade, ACellWithoutHeightStaysWithout) {
    auto ground = plane(0.1, 0.1);
    ground(2, 2) = no_value;
    const auto light = hillshade(ground);
    EXPECT_TRUE(std::isnan(light(2, 2)));
    EXPECT_FALSE(std::isnan(light(2, 3)));
}

TEST(Hillshade, ALightBelowTheHorizonIsAnError) {
    EXPECT_THROW(hillshade(plane(0, 0), {315, -5, 1}), std::invalid_argument);
    EXPECT_THROW(hillshade(plane(0, 0), {315, 45, 0}), std::invalid_argument);
}

TEST(Hillshade, ThinnedBlocksAreMeansOfWhatTheyHold) {
    Grid<float> values({5, 3, 10.0});
    for (std::int64_t i = 0; i < 15; ++i) values.values()[static_cast<std::size_t>(i)] = static_cast<float>(i);
    values(0, 0) = no_value;
    const auto thin = thinned(values, 2);
    EXPECT_EQ(thin.shape(), (Shape{3, 2, 20.0}));
    EXPECT_FLOAT_EQ(thin(0, 0), (1.0F + 5 + 6) / 3);
    EXPECT_FLOAT_EQ(thin(1, 2), 14.0F);
    EXPECT_THROW(thinned(values, 0), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::terrain
