#include "factors/cropstage.h"

#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Cropstage, WeightsAreErosivityNotTime) {
    // Half the rain on 0.60, half on 0.10: 0.35, however long either stage lasts.
    const std::array<Stage, 2> year{{{0.60, 0.5}, {0.10, 0.5}}};
    EXPECT_NEAR(cover_factor_of_stages(year), 0.35, 1e-12);
}

TEST(Cropstage, SharesMustMakeAWholeYear) {
    const std::array<Stage, 1> half{{{0.60, 0.5}}};
    EXPECT_THROW(cover_factor_of_stages(half), std::invalid_argument);
}

TEST(Cropstage, RatiosAreFractions) {
    // AH 537 Table 5 line 1, from memory: seedbed 55 %.
    EXPECT_NEAR(soil_loss_ratio(1, "SB"), 0.55, 1e-12);
    EXPECT_THROW(soil_loss_ratio(99, "SB"), std::invalid_argument);
    EXPECT_THROW(soil_loss_ratio(1, "P9"), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
