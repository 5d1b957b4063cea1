#include "factors/practice_1976.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Practice1976, HasClassesOfItsOwn) {
    // US EPA 1976, read in a reprint: contour 0.50 on 2-7 %, 0.80 on 12.1-18 %; Handbook 537 has 0.7 at 14 %.
    EXPECT_DOUBLE_EQ(practice_factor_1976({5, 5}, "contour"), 0.5);
    EXPECT_DOUBLE_EQ(practice_factor_1976({14, 14}, "contour"), 0.8);
}

TEST(Practice1976, CellsItLacksAreErrors) {
    EXPECT_THROW(practice_factor_1976({30, 30}, "contour"), std::invalid_argument);
    EXPECT_THROW(practice_factor_1976({5, 5}, "windbreak"), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
