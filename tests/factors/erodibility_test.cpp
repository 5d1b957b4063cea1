#include "factors/erodibility.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <stdexcept>

#include "factors/nomograph.h"

namespace soilhold::factors {
namespace {

constexpr double si_per_us = 0.1317;  // Foster et al. 1981, from memory, recomputed

SoilDescription loam() {
    SoilDescription soil;
    soil.sand_pct = 20;
    soil.silt_pct = 55;
    soil.very_fine_sand_pct = 8;
    soil.clay_pct = 25;
    soil.organic_matter_pct = 2.5;
    soil.structure_code = 2;
    soil.permeability_code = 4;
    return soil;
}

NomographSoil of(double silt_and_very_fine_sand, double clay, double organic_matter, int structure, int permeability) {
    return {silt_and_very_fine_sand, 0, clay, organic_matter, structure, permeability};
}

TEST(Erodibility, TheHandbooksExampleComesOut) {
    // AH 537 Fig. 3 example, inputs read in a caption: silt and very fine sand 65, sand 5, OM 2.8, codes 2 and 4: 0.31.
    EXPECT_NEAR(nomograph_erodibility_us(of(65, 30, 2.8, 2, 4)), 0.31, 0.005);
}

TEST(Erodibility, OfTheTextureIsInMetricUnits) {
    const auto K = erodibility(loam());
    const double us = nomograph_erodibility_us({55, 8, 25, 2.5, 2, 4});
    EXPECT_NEAR(K.central, us * si_per_us, us * si_per_us * 1e-3);
    EXPECT_EQ(K.origin.citation, "nomograph");
}

TEST(Erodibility, MissingVeryFineSandWidensTheRange) {
    auto soil = loam();
    const auto measured = erodibility(soil);
    soil.very_fine_sand_pct.reset();
    const auto assumed = erodibility(soil);
    // 20 % of sand, 30 % of it very fine (ours): 6 % in the place of 8 %. With none of it and with 15 % (70 % with the
    // silt) the equation gives 0.267 and 0.344 US by hand, but its own doubt is as wide: 0.8 to 1.25.
    EXPECT_NEAR(assumed.central, nomograph_erodibility_us({55, 6, 25, 2.5, 2, 4}) * si_per_us, 1e-5);
    EXPECT_LE(assumed.low, 0.8 * assumed.central * (1 + 1e-12));
    EXPECT_GE(assumed.high, 1.25 * assumed.central * (1 - 1e-12));
    EXPECT_EQ(assumed.remarks.at(0).code, "very-fine-sand-assumed");
    EXPECT_NE(assumed.central, measured.central);
}

TEST(Erodibility, OfNothingIsAnError) { EXPECT_THROW(erodibility({}), std::invalid_argument); }

TEST(Erodibility, VeryFineSandCountsWithTheSilt) {
    // Left out, K of this soil falls by a third (practitioners' example: 0.363 and 0.241 US).
    EXPECT_LT(nomograph_erodibility_us({30, 0, 20, 2, 2, 3}), 0.75 * nomograph_erodibility_us({30, 15, 20, 2, 2, 3}));
}

TEST(Erodibility, OrganicMatterAboveFourPercentCountsAsFour) {
    // National Soil Survey Handbook 618.59 D(6), read.
    EXPECT_DOUBLE_EQ(nomograph_erodibility_us(of(50, 20, 6, 2, 3)), nomograph_erodibility_us(of(50, 20, 4, 2, 3)));
    auto soil = loam();
    soil.organic_matter_pct = 6;
    EXPECT_EQ(erodibility(soil).remarks.at(0).code, "organic-matter-capped");
}

TEST(Erodibility, SiltAboveSeventyPercentIsCautioned) {
    auto soil = loam();
    soil.silt_pct = 66;
    soil.clay_pct = 20;
    soil.very_fine_sand_pct = 5;
    EXPECT_EQ(erodibility(soil).remarks.at(0).code, "silt-above-70");
}

TEST(Erodibility, ANegativeResultIsHeldAndSaid) {
    // A clean coarse sand: the terms of codes 1 and 1 reach -0.0825.
    auto soil = loam();
    soil.sand_pct = 95;
    soil.silt_pct = 2;
    soil.very_fine_sand_pct = 0;
    soil.clay_pct = 3;
    soil.structure_code = 1;
    soil.permeability_code = 1;
    EXPECT_DOUBLE_EQ(nomograph_erodibility_us({2, 0, 3, 2.5, 1, 1}), 0.0);
    const auto K = erodibility(soil);
    EXPECT_GT(K.central, 0.0);
    EXPECT_EQ(K.remarks.at(0).code, "erodibility-negative");
}

TEST(Erodibility, AGivenFigureWinsOverTheTexture) {
    auto soil = loam();
    soil.erodibility = spread::Stated{0.0487, std::nullopt, {"soil survey", "", {}}};
    const auto K = erodibility(soil);
    EXPECT_DOUBLE_EQ(K.central, 0.0487);
    EXPECT_EQ(K.origin.from, "soil survey");
}

TEST(Erodibility, CodesAndSharesOutsideTheirRangesAreErrors) {
    EXPECT_THROW(nomograph_erodibility_us(of(50, 20, 2, 0, 3)), std::invalid_argument);
    EXPECT_THROW(nomograph_erodibility_us(of(50, 20, 2, 5, 3)), std::invalid_argument);
    EXPECT_THROW(nomograph_erodibility_us(of(50, 20, 2, 2, 7)), std::invalid_argument);
    EXPECT_THROW(nomograph_erodibility_us(of(90, 20, 2, 2, 3)), std::invalid_argument);
    EXPECT_THROW(nomograph_erodibility_us(of(-1, 20, 2, 2, 3)), std::invalid_argument);
}

TEST(Erodibility, WorseSoilNeverHasASmallerK) {
    EXPECT_TRUE(rc::check("more silt, less humus, coarser structure, slower permeability", [] {
        const double silt = *rc::gen::inRange(0, 60), clay = *rc::gen::inRange(0, 39);
        const double organic_matter = *rc::gen::inRange(0, 80) / 10.0;
        const int structure = *rc::gen::inRange(1, 4), permeability = *rc::gen::inRange(1, 6);
        const double K = nomograph_erodibility_us(of(silt, clay, organic_matter, structure, permeability));
        RC_ASSERT(K <= nomograph_erodibility_us(of(silt + 1, clay, organic_matter, structure, permeability)));
        RC_ASSERT(K >= nomograph_erodibility_us(of(silt, clay, organic_matter + 0.5, structure, permeability)));
        RC_ASSERT(K <= nomograph_erodibility_us(of(silt, clay, organic_matter, structure + 1, permeability)));
        RC_ASSERT(K <= nomograph_erodibility_us(of(silt, clay, organic_matter, structure, permeability + 1)));
    }));
}

}  // namespace
}  // namespace soilhold::factors
