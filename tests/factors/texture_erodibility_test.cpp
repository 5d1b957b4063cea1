#include "factors/texture_erodibility.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(TextureErodibility, HumusLowersItInBothTables) {
    EXPECT_GT(texture_erodibility_stewart_us("silt loam", 0.5), texture_erodibility_stewart_us("silt loam", 4));
    EXPECT_GT(texture_erodibility_ontario_us("silt loam", "below 2 pct"),
              texture_erodibility_ontario_us("silt loam", "above 2 pct"));
}

TEST(TextureErodibility, LiesStraightBetweenTheColumns) {
    // Stewart et al. 1975, read in a reprint: silt loam .42 at 2 %, .33 at 4 %.
    EXPECT_NEAR(texture_erodibility_stewart_us("silt loam", 3), 0.375, 1e-12);
}

TEST(TextureErodibility, UnknownTextureIsAnError) {
    EXPECT_THROW(texture_erodibility_stewart_us("peat", 2), std::invalid_argument);
    EXPECT_THROW(texture_erodibility_stewart_us("silt loam", 9), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
