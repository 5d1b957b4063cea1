#include "factors/erosivity.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>
#include <stdexcept>

#include "factors/rain_erosivity.h"

namespace soilhold::factors {
namespace {

TEST(Erosivity, AGivenFigureKeepsItsOrigin) {
    RainDescription rain;
    rain.erosivity = spread::Stated{2978, std::nullopt, {"county sheet", "", {}}};
    const auto R = erosivity(rain);
    EXPECT_DOUBLE_EQ(R.central, 2978);
    EXPECT_EQ(R.origin.from, "county sheet");
    EXPECT_TRUE(R.remarks.empty());
}

TEST(Erosivity, OfRainTotalsIsFarLooserThanAGivenFigure) {
    RainDescription given, rain;
    given.erosivity = spread::Stated{3474, std::nullopt, {}};
    rain.annual_rain_mm = spread::Stated{1000, std::nullopt, {}};
    // Renard & Freimund 1994, from memory: 587.8 - 1219 + 4105 = 3474 by hand.
    EXPECT_NEAR(erosivity(rain).central, 3473.8, 0.1);
    EXPECT_GT(erosivity(rain).high, erosivity(given).high);
    EXPECT_EQ(erosivity(rain).remarks.at(0).code, "rain-relation");
}

TEST(Erosivity, BranchesOfBothRelationsNearlyMeet) {
    EXPECT_NEAR(erosivity_from_annual_rain(850.001) / erosivity_from_annual_rain(850), 1.0, 0.003);
    // With the misprint 0.07397 this would jump tenfold.
    EXPECT_NEAR(erosivity_from_fournier_index(55) / erosivity_from_fournier_index(54.999), 1.0, 0.01);
}

TEST(Erosivity, EvenRainHasTheIndexOfItsMonth) {
    std::array<double, 12> even{};
    even.fill(50);
    EXPECT_DOUBLE_EQ(modified_fournier_index(even), 50);
    std::array<double, 12> monsoon{};
    monsoon[6] = 600;
    EXPECT_DOUBLE_EQ(modified_fournier_index(monsoon), 600);
}

TEST(Erosivity, TheIndexLiesBetweenATwelfthOfTheYearAndTheWettestMonth) {
    EXPECT_TRUE(rc::check("any twelve months", [] {
        std::array<double, 12> months{};
        double year = 1, wettest = 1;
        months[0] = 1;
        for (std::size_t i = 1; i < 12; ++i) {
            months[i] = *rc::gen::inRange(0, 400);
            year += months[i];
            wettest = std::max(wettest, months[i]);
        }
        const double index = modified_fournier_index(months);
        RC_ASSERT(index >= year / 12 * (1 - 1e-12));
        RC_ASSERT(index <= wettest * (1 + 1e-12));
    }));
}

TEST(Erosivity, MoreRainNeverBringsLess) {
    EXPECT_TRUE(rc::check("away from the edges, where the branches step by less than 1 %", [] {
        const double P = *rc::gen::inRange(100, 3000);
        if (P < 840 || P > 860) RC_ASSERT(erosivity_from_annual_rain(P + 5) > erosivity_from_annual_rain(P));
    }));
}

TEST(Erosivity, ImpossibleRainIsAnError) {
    EXPECT_THROW(erosivity({}), std::invalid_argument);
    EXPECT_THROW(erosivity_from_annual_rain(0), std::invalid_argument);
    EXPECT_THROW(modified_fournier_index({}), std::invalid_argument);
    std::array<double, 12> months{};
    months[3] = -1;
    EXPECT_THROW(modified_fournier_index(months), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
