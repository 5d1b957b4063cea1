#include "rotation/roughness.h"

#include <gtest/gtest.h>

#include "factors/cover_subfactors.h"

namespace soilhold::rotation {
namespace {

TEST(Roughness, IsTheMeanOverWhatWasMovedAndWhatWasNot) {
    EXPECT_DOUBLE_EQ(roughness_after_mm(10, 20, 0.0), 20);
    EXPECT_DOUBLE_EQ(roughness_after_mm(10, 20, 1.0), 10);
    EXPECT_DOUBLE_EQ(roughness_after_mm(10, 20, 0.25), 17.5);
    EXPECT_THROW(roughness_after_mm(10, 20, 1.5), std::invalid_argument);
}

TEST(Consolidation, BeginsAnewUnderATool) {
    EXPECT_NEAR(years_at_rest_after(7, 1.0), 0.0, 1e-12);
    EXPECT_DOUBLE_EQ(years_at_rest_after(3, 0.0), 3.0);
    // By hand: half of the surface moved after seven years: Cf = 0.5 + 0.5 x 0.45 = 0.725
    EXPECT_NEAR(factors::consolidation_subfactor(years_at_rest_after(7, 0.5)), 0.725, 1e-12);
}

TEST(Consolidation, YearsAndCfAreInverse) {
    for (const double years : {0.0, 1.0, 3.5, 7.0})
        EXPECT_NEAR(years_of_consolidation(factors::consolidation_subfactor(years)), years, 1e-12);
}

}  // namespace
}  // namespace soilhold::rotation
