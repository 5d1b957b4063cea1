#include "factors/geometric_mean_diameter.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(GeometricMeanDiameter, OfOneClassIsTheMiddleOfItsLimits) {
    const std::array<GrainClass, 1> silt{{{100, 0.002, 0.05}}};
    EXPECT_NEAR(geometric_mean_diameter_mm(silt), 0.026, 1e-12);
}

TEST(GeometricMeanDiameter, OfThreeClassesByHand) {
    // exp(0.2 ln 1.025 + 0.6 ln 0.026 + 0.2 ln 0.001) = 0.02825 by hand.
    const std::array<GrainClass, 3> loam{{{20, 0.05, 2}, {60, 0.002, 0.05}, {20, 0, 0.002}}};
    EXPECT_NEAR(geometric_mean_diameter_mm(loam), 0.02825, 0.00001);
}

TEST(GeometricMeanDiameter, SiltyGrainsErodeMost) {
    // The curve's top: log10 Dg = -1.659, Dg 0.0219 mm, K 0.0439.
    EXPECT_NEAR(erodibility_from_diameter(std::pow(10, -1.659)), 0.0439, 1e-9);
    EXPECT_LT(erodibility_from_diameter(0.001), 0.0439);
    EXPECT_LT(erodibility_from_diameter(0.5), 0.0439);
}

TEST(GeometricMeanDiameter, SharesMustMakeAHundred) {
    const std::array<GrainClass, 1> half{{{50, 0.002, 0.05}}};
    EXPECT_THROW(geometric_mean_diameter_mm(half), std::invalid_argument);
    EXPECT_THROW(erodibility_from_diameter(0), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
