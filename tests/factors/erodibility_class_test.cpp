#include "factors/erodibility_class.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(ErodibilityClass, IsTheNearestOfFourteen) {
    EXPECT_DOUBLE_EQ(erodibility_class_us(0.36), 0.37);
    EXPECT_DOUBLE_EQ(erodibility_class_us(0.0), 0.02);
    EXPECT_DOUBLE_EQ(erodibility_class_us(0.9), 0.64);
}

TEST(ErodibilityClass, OutsideKIsAnError) { EXPECT_THROW(erodibility_class_us(-0.1), std::invalid_argument); }

}  // namespace
}  // namespace soilhold::factors
