#include "factors/nutrients.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Nutrients, APublishedSumComesOut) {
    // USDA-NRCS contents at prices of 2011, read: 2.32 lb N at 0.51 and 1 lb P at 0.59 are 1.77 a ton.
    EXPECT_NEAR(nitrogen_phosphorus_value(2.32, 1, 0.51, 0.59), 1.77, 0.005);
}

TEST(Nutrients, OrganicMatterIsAShareOfTwoThousandPounds) {
    EXPECT_DOUBLE_EQ(organic_matter_lb_per_ton(5), 100);
    EXPECT_DOUBLE_EQ(organic_matter_value(5, 0.10), 10);
}

TEST(Nutrients, NegativePricesAreErrors) {
    EXPECT_THROW(nitrogen_phosphorus_value(2, 1, -0.5, 0.5), std::invalid_argument);
    EXPECT_THROW(organic_matter_lb_per_ton(101), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
