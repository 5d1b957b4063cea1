#include "factors/cover.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <stdexcept>

#include "factors/cover_subfactors.h"

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;

CoverDescription of_parts(const CoverParts& parts) {
    CoverDescription cover;
    cover.parts = parts;
    return cover;
}

TEST(Cover, AGivenFigureKeepsItsOriginAndIsLooserWhenSmall) {
    CoverDescription cover;
    cover.factor = spread::Stated{0.32, std::nullopt, {"sheet of the local office", "", {}}};
    const auto ordinary = cover_management(cover);
    EXPECT_DOUBLE_EQ(ordinary.central, 0.32);
    EXPECT_EQ(ordinary.origin.from, "sheet of the local office");
    cover.factor->value = 0.05;
    const auto small = cover_management(cover);
    EXPECT_GT(small.high / small.central, ordinary.high / ordinary.central);
}

TEST(Cover, PartsMultiply) {
    // By hand from AH 703 ch. 5 (from memory): SC exp(-0.035 x 30) = 0.3499, CC 1 - 0.5 exp(-0.3) = 0.6296, PLU 0.6.
    CoverParts parts;
    parts.surface_cover_fraction = 0.30;
    parts.canopy_fraction = 0.5;
    parts.fall_height_m = 3 * foot;
    parts.prior_land_use = 0.6;
    EXPECT_NEAR(cover_management(of_parts(parts)).central, 0.3499 * 0.6296 * 0.6, 0.0001);
}

TEST(Cover, PartsLeftOutCountAsTheUnitPlots) { EXPECT_DOUBLE_EQ(cover_management(of_parts({})).central, 1.0); }

TEST(Cover, YearsWithoutTillageGiveThePartOfPriorLandUse) {
    // AH 703 ch. 5, from memory: 0.45 after seven years, and no less later.
    CoverParts parts;
    parts.years_undisturbed = 7;
    EXPECT_NEAR(cover_management(of_parts(parts)).central, 0.45, 1e-12);
    parts.years_undisturbed = 20;
    EXPECT_NEAR(cover_management(of_parts(parts)).central, 0.45, 1e-12);
}

TEST(Cover, ACanopyWithoutItsHeightIsAnError) {
    CoverParts parts;
    parts.canopy_fraction = 0.5;
    EXPECT_THROW(cover_management(of_parts(parts)), std::invalid_argument);
}

TEST(Cover, AFullCanopyOnTheGroundIsHeldAboveNothing) {
    CoverParts parts;
    parts.canopy_fraction = 1.0;
    parts.fall_height_m = 0.0;
    const auto result = cover_management(of_parts(parts));
    EXPECT_DOUBLE_EQ(result.central, 0.0001);
    EXPECT_GT(result.low, 0.0);
    EXPECT_EQ(result.remarks.at(0).code, "cover-least");
}

TEST(Cover, SharesAreNotPercents) {
    CoverParts parts;
    parts.surface_cover_fraction = 30;
    EXPECT_THROW(cover_management(of_parts(parts)), std::invalid_argument);
}

TEST(Cover, NothingDescribedIsAnError) { EXPECT_THROW(cover_management({}), std::invalid_argument); }

TEST(Cover, PartsOnlyHoldPriorLandUseWhenItIsThere) {
    EXPECT_FALSE(of_parts({}).holds_prior_land_use());
    CoverParts parts;
    parts.years_undisturbed = 3;
    EXPECT_TRUE(of_parts(parts).holds_prior_land_use());
}

TEST(CoverSubfactors, TheMinusOfPriorLandUseStandsBeforeTheBracket) {
    // The erratum of 2001 was read; with the printed sign buried residue would raise the loss.
    EXPECT_LT(prior_land_use_subfactor(1.0, 200, 500), prior_land_use_subfactor(1.0, 200, 0));
    EXPECT_LT(prior_land_use_subfactor(0.45, 400, 0), prior_land_use_subfactor(0.45, 0, 0));
}

TEST(CoverSubfactors, MoreCoverNeverMeansMoreLoss) {
    EXPECT_TRUE(rc::check("canopy, ground cover, roughness, years", [] {
        const double a = *rc::gen::inRange(0, 100) / 100.0, b = *rc::gen::inRange(0, 100) / 100.0;
        const double low = std::min(a, b), high = std::max(a, b);
        const double height_m = *rc::gen::inRange(0, 500) / 100.0;
        const double roughness_mm = *rc::gen::inRange(1, 60);
        RC_ASSERT(canopy_subfactor(high, height_m) <= canopy_subfactor(low, height_m));
        RC_ASSERT(surface_cover_subfactor(high, 0.035, roughness_mm) <=
                  surface_cover_subfactor(low, 0.035, roughness_mm));
        RC_ASSERT(surface_roughness_subfactor(60 * high + 1) <= surface_roughness_subfactor(60 * low + 1));
        RC_ASSERT(consolidation_subfactor(10 * high) <= consolidation_subfactor(10 * low));
    }));
}

TEST(CoverSubfactors, AHighCanopyProtectsLess) {
    EXPECT_TRUE(rc::check("drops gather speed", [] {
        const double share = *rc::gen::inRange(1, 100) / 100.0;
        const double low_m = *rc::gen::inRange(0, 300) / 100.0;
        RC_ASSERT(canopy_subfactor(share, low_m + 0.5) > canopy_subfactor(share, low_m));
    }));
}

}  // namespace
}  // namespace soilhold::factors
