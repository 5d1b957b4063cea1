#include "rotation/cover_calendar.h"

#include <gtest/gtest.h>

#include <cmath>

#include "factors/cropstage.h"
#include "places.h"
#include "rotation/edits.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

double C_of(const char* words) { return cover_calendar(rotation_of_words(words), corn_belt()).C; }

/// 20 C and 33.02 mm in every half-month, erosivity in the second halves of June and October only.
Climate paper_place() {
    Climate climate;
    climate.temperature_C.fill(20);
    climate.rain_mm.fill(33.02);
    climate.erosivity_share[11] = 0.7;
    climate.erosivity_share[19] = 0.3;
    climate.erosivity = 100 * units::erosivity_si_per_us;
    return climate;
}

/// Corn on corn: chisel 16 April, planter 1 May, harvest 1 October; 6000 kg/ha of residue, 1000 kg/ha of roots.
Rotation paper_rotation() {
    Rotation rotation;
    CropGrown corn;
    corn.crop = "corn";
    corn.planted = Day{1, 121};
    corn.ended = Day{1, 274};
    corn.residue = spread::Stated{6000, {}, {}};
    corn.roots = spread::Stated{1000, {}, {}};
    rotation.crops.push_back(corn);
    rotation.operations.push_back({"chisel plow", {1, 106}, {}, {}, {}, {}});
    rotation.operations.push_back({"planter", {1, 121}, {}, {}, {}, {}});
    return rotation;
}

// docs/cover-calendar.md, "By hand": every figure worked on paper from the equations, one look at the middle of a
// half-month.
TEST(CoverCalendar, AsWorkedByHand) {
    const Calendar calendar = cover_calendar(paper_rotation(), paper_place(), {}, {}, 30.0);
    const CalendarRow& june = calendar.rows[11];
    EXPECT_NEAR(june.residue_on_kg_ha, 428.6, 0.1);
    EXPECT_NEAR(june.residue_in_kg_ha, 257.8, 0.1);
    EXPECT_NEAR(june.roots_kg_ha, 93.4 + 935.7, 0.1);
    EXPECT_NEAR(june.cover_pct, 13.53, 0.01);
    EXPECT_NEAR(june.canopy, 0.8889, 0.0001);
    EXPECT_NEAR(june.roughness_mm / 25.4, 0.4189, 0.0001);
    EXPECT_NEAR(june.Cf, 0.9795, 0.0001);
    EXPECT_NEAR(june.PLU, 0.5758, 0.0001);
    EXPECT_NEAR(june.CC, 0.3472, 0.0001);
    EXPECT_NEAR(june.SC, 0.6359, 0.0001);
    EXPECT_NEAR(june.SR, 0.8886, 0.0001);
    EXPECT_NEAR(june.SLR, 0.1130, 0.0001);
    const CalendarRow& october = calendar.rows[19];
    EXPECT_NEAR(october.cover_pct, 82.57, 0.01);
    EXPECT_NEAR(october.PLU, 0.6045, 0.0001);
    EXPECT_NEAR(october.CC, 1.0, 1e-12);
    EXPECT_NEAR(october.SC, 0.0587, 0.0001);
    EXPECT_NEAR(october.SLR, 0.0340, 0.0001);
    EXPECT_NEAR(calendar.C, 0.0893, 0.0001);
}

TEST(CoverCalendar, BareTilledGroundIsTheHandbooksBase) {
    // Nothing grows, a disk goes over it every month: PLU = 0.951 (AH 703 eq. 5-9, from memory), CC = SC = 1.
    Rotation fallow;
    for (const int day : {1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335})
        fallow.operations.push_back({"tandem disk", {1, day}, {}, {}, {}, {}});
    const Calendar calendar = cover_calendar(fallow, corn_belt());
    EXPECT_NEAR(calendar.PLU, 0.951, 0.005);
    EXPECT_DOUBLE_EQ(calendar.CC, 1.0);
    EXPECT_DOUBLE_EQ(calendar.SC, 1.0);
    EXPECT_TRUE(calendar.C > 0.8 && calendar.C < 0.951) << calendar.C;
}

TEST(CoverCalendar, TwentyPercentOfCoverAboutHalvesTheLoss) {
    // An extension lesson that was read: 20 % cover halves erosion.
    Climate climate = paper_place();
    climate.erosivity_share.fill(0);
    climate.erosivity_share[11] = 1;
    // 20 % = 1 - exp(-0.0002 acre/lb x mass): 1115.7 lb/acre = 1250.5 kg/ha, taken off again after the half-month.
    Rotation bare, covered;
    bare.added.push_back({{1, 167}, "wood chips", {0, {}, {}}});
    covered.added.push_back({{1, 167}, "wood chips", {1250.5, {}, {}}});
    covered.removed.push_back({{1, 182}, {1.0, {}, {}}});
    EXPECT_NEAR(cover_calendar(covered, climate).rows[11].cover_pct, 20, 0.2);
    const double ratio = cover_calendar(covered, climate).C / cover_calendar(bare, climate).C;
    EXPECT_NEAR(ratio, 0.5, 0.01);
}

TEST(CoverCalendar, SevenYearsAtRestAre0_45) {
    // AH 703 ch. 5, from memory
    Rotation chips;
    chips.years = 9;
    chips.operations.push_back({"rotary tiller", {1, 1}, {}, {}, {}, {}});
    const Calendar calendar = cover_calendar(chips, corn_belt());
    EXPECT_NEAR(calendar.rows.front().Cf, 1.0, 0.005);
    EXPECT_NEAR(calendar.rows.back().Cf, 0.45, 1e-9);
    EXPECT_NEAR(calendar.rows[24 * 7 + 12].Cf, 0.45, 1e-9);
    EXPECT_GT(calendar.rows[24 * 6 + 12].Cf, 0.45);
}

TEST(CoverCalendar, GrassLandIsCreditedAndNeverTilled) {
    const Calendar sod = cover_calendar(rotation_of_words("grass sod"), corn_belt());
    EXPECT_NEAR(sod.mean_consolidation, 0.45, 1e-9);
    EXPECT_NEAR(sod.years_at_rest, 7, 1e-9);
    EXPECT_NEAR(sod.credited_share, 1, 1e-9);
    EXPECT_FALSE(sod.years_since_tillage.has_value());
    const Calendar plowed = cover_calendar(rotation_of_words("continuous corn, fall plow"), corn_belt());
    EXPECT_LT(plowed.credited_share, 0.1);
    ASSERT_TRUE(plowed.years_since_tillage.has_value());
    EXPECT_TRUE(*plowed.years_since_tillage > 0 && *plowed.years_since_tillage < 1);
}

// Ranges of C as an office knows them; from memory, wide. Some rows were set with them in view (docs/cover-calendar.md,
// 7): this detects change, the cropstages below prove more.
TEST(CoverCalendar, FallsWithinTheRangesOfTheTrade) {
    const auto within = [](const char* words, double low, double high) {
        const double C = C_of(words);
        EXPECT_TRUE(C >= low && C <= high) << words << ": " << C;
    };
    within("continuous corn, fall plow", 0.28, 0.48);
    within("corn-soybean, fall plow", 0.30, 0.50);
    within("corn-soybean, fall chisel", 0.12, 0.28);
    within("corn-soybean, no-till", 0.03, 0.15);
    within("corn silage, fall plow", 0.35, 0.60);
    within("alfalfa", 0.005, 0.03);
    within("grass sod", 0.003, 0.01);
    within("corn-corn-oats-alfalfa-alfalfa-alfalfa, fall plow", 0.08, 0.20);
}

// AH 537 Table 5 lines 1 to 4 (from memory): corn after corn, plowed in spring, residue of spring 4500 to 2000 lb/acre.
// Measured plots and not these equations: the two roads come within a quarter of each other.
TEST(CoverCalendar, ComesNearTheCropstagesOfTheOlderHandbook) {
    const double spring_lb[] = {4500, 3400, 2600, 2000};
    for (int line = 1; line <= 4; ++line) {
        Rotation rotation = rotation_of_words("continuous corn, spring plow");
        // What lies in spring is some 72 % of what was left in autumn.
        rotation.crops[0].residue = spread::Stated{spring_lb[line - 1] * units::kg_ha_per_lb_acre / 0.72, {}, {}};
        const Calendar calendar = cover_calendar(rotation, corn_belt());
        EXPECT_NEAR(calendar.rows[6].residue_on_kg_ha / units::kg_ha_per_lb_acre / spring_lb[line - 1], 1.0, 0.1);
        const auto ratio = [&](const char* stage) { return factors::soil_loss_ratio(line, stage); };
        // Half-months 8 and 9: May, seedbed; 10: canopy 27 %; 11: 67 %; 12 to 18: to harvest; then stubble; 7: rough
        // fallow.
        EXPECT_NEAR(calendar.rows[8].SLR / ratio("SB"), 1.0, 0.2) << line;
        EXPECT_NEAR(calendar.rows[10].SLR / ratio("P1"), 1.0, 0.2) << line;
        EXPECT_NEAR(calendar.rows[12].SLR / ratio("P3_96"), 1.0, 0.25) << line;
        double C = 0;
        for (std::size_t i = 0; i < half_months; ++i) {
            const char* stage = i == 7              ? "F"
                                : i == 8 || i == 9  ? "SB"
                                : i == 10           ? "P1"
                                : i == 11           ? "P2"
                                : i > 11 && i <= 18 ? "P3_96"
                                                    : "P4L";
            C += ratio(stage) * calendar.rows[i].erosivity_share;
        }
        EXPECT_NEAR(calendar.C / C, 1.0, 0.25) << line << ": " << calendar.C << " by parts, " << C << " by stages";
    }
}

TEST(CoverCalendar, CoverAfterPlantingIsWhatWasMeasured) {
    // Dixon Springs, Illinois, 1996 to 2012, corn and soybean, cover after planting: chisel 18 to 29 %, plowed 5 to 30
    // % (read). The calendar's plow buries more than theirs did.
    const auto mean_cover = [](const char* words) {
        const Rotation rotation = rotation_of_words(words);
        return 0.5 * (*cover_calendar(rotation, corn_belt(), {}, Day{1, 140}).probed_cover_pct +
                      *cover_calendar(rotation, corn_belt(), {}, Day{2, 140}).probed_cover_pct);
    };
    const double chisel = mean_cover("corn-soybean, fall chisel");
    EXPECT_TRUE(chisel >= 18 && chisel <= 29) << chisel;
    EXPECT_LT(mean_cover("corn-soybean, fall plow"), 10);
    EXPECT_GT(mean_cover("corn-soybean, no-till"), 2 * chisel);
}

TEST(CoverCalendar, NoTillWithItsResidueCutsTheLossByHalfToNineTenths) {
    // Over 50 % with half the residue, 66 % in a meta-analysis (both read), 75 % by a simple method (from memory)
    const double cut = 1 - C_of("corn-soybean, no-till") / C_of("corn-soybean, fall plow");
    EXPECT_TRUE(cut > 0.5 && cut < 0.95) << cut;
}

TEST(CoverCalendar, NewNoTillWithoutItsResidueIsNoBetterThanPlowing) {
    // Read (abstract, a Vertisol under simulated rain): no-till with residue removed lost as much as ploughed ground.
    // The trial was young, so the ground had not settled: Cf = 1.
    Adjustments young;
    young.consolidation = 0;
    const Rotation stripped = take_the_stalks(rotation_of_words("continuous corn, no-till"), 1.0).rotation;
    const double no_till = cover_calendar(stripped, corn_belt(), young).C;
    const double plowed = cover_calendar(rotation_of_words("continuous corn, fall plow"), corn_belt(), young).C;
    EXPECT_GE(no_till, plowed);
    // Settled ground keeps some of the gain in these equations, and less than a third of that with the residue.
    const double settled = cover_calendar(stripped, corn_belt()).C;
    EXPECT_GT(settled, 3 * C_of("continuous corn, no-till"));
}

TEST(CoverCalendar, ShortCornAndSoybeanCanLoseMoreThanCornOnCorn) {
    EXPECT_GT(C_of("corn-soybean, fall plow"), C_of("continuous corn, fall plow"));
    EXPECT_GT(C_of("corn-soybean, fall chisel"), C_of("continuous corn, fall chisel"));
}

TEST(CoverCalendar, SodYearsPullTheMeanDown) {
    const Calendar calendar =
        cover_calendar(rotation_of_words("corn-corn-oats-alfalfa-alfalfa-alfalfa, fall plow"), corn_belt());
    EXPECT_LT(calendar.C, C_of("continuous corn, fall plow"));
    EXPECT_LT(calendar.C_of_year[4], 0.05);
    // The first corn after sod loses less than the second: what the roots leave.
    EXPECT_NE(calendar.C_of_year[0], calendar.C_of_year[1]);
}

TEST(CoverCalendar, ACoverCropMattersInTheMonthsInWhichItStands) {
    const Rotation bare = rotation_of_words("corn silage, spring chisel");
    const Rotation rye = cover_crop_after(bare, "corn silage", "cereal rye cover").rotation;
    const Calendar without = cover_calendar(bare, corn_belt()), with = cover_calendar(rye, corn_belt());
    const double in_april = with.rows[7].SLR / without.rows[7].SLR;     // late, rye standing
    const double in_august = with.rows[15].SLR / without.rows[15].SLR;  // late, four months after the chisel
    EXPECT_LT(in_april, 0.4);
    EXPECT_GT(in_august, 1.3 * in_april);
    EXPECT_LE(in_august, 1.0);
}

TEST(CoverCalendar, TheRowsSumToC) {
    const Calendar calendar = cover_calendar(rotation_of_words("corn-soybean-wheat, fall chisel"), corn_belt());
    ASSERT_EQ(calendar.rows.size(), 72U);
    double C = 0, shares = 0;
    for (const CalendarRow& row : calendar.rows) {
        C += row.contribution;
        shares += row.erosivity_share;
    }
    EXPECT_NEAR(shares, 1, 1e-9);
    EXPECT_NEAR(C, calendar.C, 1e-12);
    EXPECT_NEAR((calendar.C_of_year[0] + calendar.C_of_year[1] + calendar.C_of_year[2]) / 3, calendar.C, 1e-12);
}

TEST(CoverCalendar, TheEndIsTheBeginning) {
    Rotation one = rotation_of_words("continuous corn, fall chisel"), two = one;
    two.years = 2;
    for (const CropGrown& grown : one.crops) {
        CropGrown again = grown;
        again.planted->year = again.ended->year = 2;
        two.crops.push_back(again);
    }
    for (OperationDone done : one.operations) {
        done.on.year = 2;
        two.operations.push_back(done);
    }
    const Calendar once = cover_calendar(one, corn_belt()), twice = cover_calendar(two, corn_belt());
    EXPECT_TRUE(once.steady);
    EXPECT_NEAR(once.C, twice.C, 1e-9);
    EXPECT_NEAR(twice.C_of_year[0], twice.C_of_year[1], 1e-7);
}

TEST(CoverCalendar, FrostEndsOatsButNotRye) {
    const Calendar oats =
        cover_calendar(rotation_of_words("continuous corn, no-till, oats cover after corn"), corn_belt());
    EXPECT_EQ(oats.cold_deaths.size(), 1U);
    const Calendar rye = cover_calendar(rotation_of_words("continuous corn, no-till, rye after corn"), corn_belt());
    EXPECT_TRUE(rye.cold_deaths.empty());
}

TEST(CoverCalendar, GrazingTakesCoverAndItComesBack) {
    Rotation pasture = rotation_of_words("pasture");
    const double rested = cover_calendar(pasture, corn_belt()).C;
    pasture.grazing.push_back({{1, 152}, {1, 212}, {0.7, {}, {}}});
    const Calendar grazed = cover_calendar(pasture, corn_belt());
    EXPECT_GT(grazed.C, rested);
    EXPECT_LT(grazed.rows[13].canopy, 0.5 * grazed.rows[9].canopy);
    EXPECT_GT(grazed.rows[17].canopy, grazed.rows[13].canopy);
}

TEST(CoverCalendar, RefusesWhatItCanNotWorkWith) {
    EXPECT_THROW(cover_calendar(Rotation{}, corn_belt()), std::invalid_argument);
    EXPECT_THROW(cover_calendar(paper_rotation(), Climate{}), std::invalid_argument);
    EXPECT_THROW(cover_calendar(paper_rotation(), corn_belt(), {}, {}, 0.0), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::rotation
