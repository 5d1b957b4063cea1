#include "rotation/canopy.h"

#include <gtest/gtest.h>

#include "rotation/decomposition.h"
#include "rotation/operations.h"

namespace soilhold::rotation {
namespace {

ByHalfMonth always(double temperature_C) {
    ByHalfMonth all{};
    all.fill(temperature_C);
    return all;
}

TEST(Warmth, SumsDaysAboveTheBase) {
    const Warmth warmth(always(20), 10);
    EXPECT_NEAR(warmth.until(1), 10, 1e-9);
    EXPECT_NEAR(warmth.until(365), 3650, 1e-9);
    EXPECT_NEAR(warmth.until(400.5), 4005, 1e-9);
    EXPECT_NEAR(warmth.reached(4005), 400.5, 1e-9);
    EXPECT_EQ(Warmth(always(5), 10).reached(1), 1e9);
}

TEST(Canopy, ByHandForCornAt535DegreeDays) {
    // By hand: x = (535 - 70)/(620 - 70) = 0.84545; x^2 (3 - 2x) = 0.93573
    EXPECT_NEAR(grown_share(crop_of("corn"), 535), 0.93573, 1e-5);
    EXPECT_NEAR(canopy_share(crop_of("corn"), 535), 0.93573, 1e-5);
}

TEST(Canopy, GrowsWithWarmthAndFallsWhenRipe) {
    for (const Crop& crop : all_crops()) {
        if (crop.kind == "perennial") continue;
        EXPECT_EQ(canopy_share(crop, 0), 0) << crop.name;
        EXPECT_NEAR(canopy_share(crop, crop.warmth_full), 1, 1e-12) << crop.name;
        EXPECT_NEAR(canopy_share(crop, crop.warmth_mature), crop.canopy_at_end, 1e-9) << crop.name;
        for (double warmth = 0; warmth < crop.warmth_full; warmth += 50)
            EXPECT_LE(canopy_share(crop, warmth), canopy_share(crop, warmth + 50)) << crop.name;
    }
}

TEST(Canopy, ComesBackAfterACut) {
    const Crop& alfalfa = crop_of("alfalfa");
    EXPECT_DOUBLE_EQ(regrown_share(alfalfa, 0), 0.2);
    EXPECT_DOUBLE_EQ(regrown_share(alfalfa, 0.6 * alfalfa.warmth_full), 1.0);
}

TEST(Crops, EachRowIsWhole) {
    for (const Crop& crop : all_crops()) {
        EXPECT_GT(crop.warmth_full, crop.warmth_emerged) << crop.name;
        EXPECT_TRUE(crop.kind == "perennial" || crop.warmth_mature > crop.warmth_full) << crop.name;
        EXPECT_TRUE(crop.canopy > 0 && crop.canopy <= 1) << crop.name;
        EXPECT_GE(crop.height_m, crop.fall_height_m) << crop.name;
        EXPECT_NO_THROW(residue_of(crop.residue)) << crop.name;
        EXPECT_TRUE(crop.usual_planted >= 1 && crop.usual_planted <= 365) << crop.name;
        EXPECT_TRUE(crop.usual_ended >= 1 && crop.usual_ended <= 365) << crop.name;
        EXPECT_FALSE(crop.origin.citation.empty()) << crop.name;
    }
}

TEST(Crops, ThoseThatAnOfficeAsksForAreThere) {
    for (const char* name : {"corn",         "corn silage",  "soybean",
                             "winter wheat", "spring wheat", "oats",
                             "barley",       "sorghum",      "cotton",
                             "sunflower",    "potato",       "sugar beet",
                             "dry bean",     "canola",       "alfalfa",
                             "grass sod",    "pasture",      "cereal rye cover",
                             "oats cover",   "clover cover", "hairy vetch cover",
                             "radish cover"})
        EXPECT_NO_THROW(crop_of(name)) << name;
}

TEST(Operations, EachRowIsWhole) {
    for (const Operation& tool : all_operations()) {
        EXPECT_TRUE(tool.left_fragile <= tool.left_nonfragile && tool.left_nonfragile <= 1) << tool.name;
        EXPECT_TRUE(tool.left_fragile >= 0 && tool.disturbed >= 0 && tool.disturbed <= 1) << tool.name;
        EXPECT_EQ(tool.disturbed > 0, tool.roughness_mm > 0) << tool.name;
        EXPECT_TRUE(tool.kind != "tillage" || tool.disturbed > 0) << tool.name;
    }
}

TEST(Operations, StandAsTheFactsHaveThem) {
    // AH 703 Table 5-5, random roughness in inches, from memory
    EXPECT_NEAR(operation_of("moldboard plow").roughness_mm, 1.9 * 25.4, 1e-9);
    EXPECT_NEAR(operation_of("chisel plow").roughness_mm, 1.5 * 25.4, 1e-9);
    EXPECT_NEAR(operation_of("tandem disk").roughness_mm, 0.8 * 25.4, 1e-9);
    EXPECT_NEAR(operation_of("planter").roughness_mm, 0.4 * 25.4, 1e-9);
    // Agency ranges of residue cover left, non-fragile, from memory: moldboard 0-10 %, chisel 60-80, no-till planter
    // 75-95
    EXPECT_LE(operation_of("moldboard plow").left_nonfragile, 0.10);
    EXPECT_TRUE(operation_of("chisel plow").left_nonfragile >= 0.60 &&
                operation_of("chisel plow").left_nonfragile <= 0.80);
    EXPECT_GE(operation_of("no-till planter").left_nonfragile, 0.75);
}

}  // namespace
}  // namespace soilhold::rotation
