#include "factors/slope_class.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(SlopeClass, IsReadAsTablesPrintIt) {
    EXPECT_DOUBLE_EQ(class_limits("3-5").from, 3);
    EXPECT_DOUBLE_EQ(class_limits("100-75").to, 100);
    EXPECT_DOUBLE_EQ(class_limits("<16").to, 16);
    EXPECT_DOUBLE_EQ(class_limits("7").from, 7);
}

TEST(SlopeClass, WhatIsNoClassIsAnError) {
    for (const char* text : {"", "-", "3-", "steep", "-4", "nan"})
        EXPECT_THROW(class_limits(text), std::invalid_argument) << text;
}

}  // namespace
}  // namespace soilhold::factors
