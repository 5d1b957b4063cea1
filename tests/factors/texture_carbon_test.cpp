#include "factors/texture_carbon.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(TextureCarbon, CarbonLowersK) {
    EXPECT_LT(texture_carbon_erodibility_us(20, 60, 20, 3), texture_carbon_erodibility_us(20, 60, 20, 0.5));
}

TEST(TextureCarbon, IsInUnitsOfTheUnitedStates) {
    // Sharpley & Williams 1990, from memory, recomputed: 20/60/20 with 1 % carbon gives 0.375.
    EXPECT_NEAR(texture_carbon_erodibility_us(20, 60, 20, 1.0), 0.375, 0.0005);
}

TEST(TextureCarbon, SharesMustMakeAHundred) {
    EXPECT_THROW(texture_carbon_erodibility_us(20, 60, 30, 1), std::invalid_argument);
    EXPECT_THROW(texture_carbon_erodibility_us(20, 60, 20, -1), std::invalid_argument);
}

TEST(TextureCarbon, MatterIsMoreThanCarbon) { EXPECT_NEAR(organic_matter_of_carbon_pct(2), 3.44, 1e-12); }

}  // namespace
}  // namespace soilhold::factors
