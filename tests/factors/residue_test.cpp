#include "factors/residue.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <stdexcept>

namespace soilhold::factors {
namespace {

TEST(Residue, MassAndCoverAreInverse) {
    EXPECT_TRUE(rc::check("every crop's coefficient", [] {
        const double a = residue_area_per_mass_acre_lb(*rc::gen::element("corn", "soybeans", "wheat", "sorghum"));
        const double cover = *rc::gen::inRange(0, 99);
        RC_ASSERT(std::abs(residue_cover_pct(residue_mass_for_cover_lb_acre(cover, a), a) - cover) < 1e-9);
    }));
}

TEST(Residue, FragileResidueCoversLessAfterAPass) {
    for (const int shovel : {2, 3, 4})
        for (const double cover : {40.0, 70.0, 100.0})
            EXPECT_LT(cover_after_mulch_tiller_pct(cover, shovel, true),
                      cover_after_mulch_tiller_pct(cover, shovel, false));
}

TEST(Residue, RainWearsRoughnessDownToTheUnitPlots) {
    EXPECT_DOUBLE_EQ(roughness_left(0, 0), 1.0);
    EXPECT_NEAR(weathered_roughness_mm(48.26, roughness_left(500, 5000)), 6.096, 0.01);
    EXPECT_DOUBLE_EQ(weathered_roughness_mm(48.26, 1.0), 48.26);
}

TEST(Residue, RoughnessOfAnOperationGrowsWithBiomass) {
    // AH 703 ch. 5, from memory: a fifth of the tabled excess over 0.24 in without biomass, nearly all with much.
    EXPECT_NEAR(roughness_after_operation_mm(1.9 * 25.4, 0) / 25.4, 0.24 + 0.2 * 1.66, 1e-9);
    EXPECT_NEAR(roughness_after_operation_mm(1.9 * 25.4, 1e6) / 25.4, 1.9, 1e-6);
}

TEST(Residue, ImpossibleCoverIsAnError) {
    EXPECT_THROW(residue_mass_for_cover_lb_acre(100, 0.00038), std::invalid_argument);
    EXPECT_THROW(residue_cover_pct(-1, 0.00038), std::invalid_argument);
    EXPECT_THROW(residue_area_per_mass_acre_lb("moonflower"), std::invalid_argument);
    EXPECT_THROW(cover_after_mulch_tiller_pct(50, 5, true), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::factors
