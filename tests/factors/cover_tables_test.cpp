#include "factors/cover_tables.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "factors/cover.h"
#include "factors/pasture_cover.h"

namespace soilhold::factors {
namespace {

using source::Standing;
using testing::HasSubstr;

constexpr double foot = 0.3048;

PastureCover pasture(double canopy_pct, double fall_height_m, GroundCover ground, double ground_cover_pct) {
    PastureCover cover;
    cover.canopy_pct = canopy_pct;
    cover.fall_height_m = fall_height_m;
    cover.ground = ground;
    cover.ground_cover_pct = ground_cover_pct;
    cover.years_undisturbed = 20;
    return cover;
}

MulchOnSlope straw(double tons_per_acre) { return {"straw or hay tied", tons_per_acre, {}}; }

/// What is said when there is no C; "" when there is one.
std::string refusal(const CoverOfTable& cover, std::optional<GroundSlope> slope = {}) {
    try {
        cover_of_table(cover, slope);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "";
}

bool says(const source::Remarks& remarks, const std::string& code) {
    return std::any_of(remarks.begin(), remarks.end(), [&](const auto& remark) { return remark.code == code; });
}

TEST(PastureCover, IsTheCellOfTheTableAsItWasRead) {
    // Table 10 in USDA Agronomy Note 50 (1982), read: canopy 25 % at 0.5 m, grass, 60 % covered: .038.
    const auto C = cover_of_pasture(pasture(25, 0.5, GroundCover::grass, 60));
    EXPECT_DOUBLE_EQ(C.central, 0.038);
    EXPECT_EQ(C.origin.standing, Standing::read_in_source);
    EXPECT_EQ(C.origin.citation, "pasture-copy");
    EXPECT_TRUE(C.remarks.empty());
    EXPECT_LT(C.low, C.central);
    EXPECT_GT(C.high, C.central);
}

TEST(PastureCover, SaysWhichPrintACellIsFromAndHowWellThatIsKnown) {
    // Weeds, no canopy, 60 %: .091 in the print of 1978 (from memory), .090 in the earlier copy (read).
    PastureCover weeds = pasture(0, 0, GroundCover::weeds, 60);
    const auto newer = cover_of_pasture(weeds);
    EXPECT_DOUBLE_EQ(newer.central, 0.091);
    EXPECT_EQ(newer.origin.standing, Standing::from_memory);
    weeds.print_of_1978 = false;
    const auto older = cover_of_pasture(weeds);
    EXPECT_DOUBLE_EQ(older.central, 0.090);
    EXPECT_EQ(older.origin.standing, Standing::read_in_source);
}

TEST(PastureCover, BetweenColumnsIsAsWeakAsItsWeakerCell) {
    // Half-way between .10 and .042 (grass, read); between .091 (memory) and .043 (read) of weeds, by hand.
    const auto grass = cover_of_pasture(pasture(0, 0, GroundCover::grass, 50));
    EXPECT_NEAR(grass.central, 0.071, 1e-12);
    EXPECT_EQ(grass.origin.standing, Standing::read_in_source);
    const auto weeds = cover_of_pasture(pasture(0, 0, GroundCover::weeds, 70));
    EXPECT_NEAR(weeds.central, 0.067, 1e-12);
    EXPECT_EQ(weeds.origin.standing, Standing::from_memory);
}

TEST(PastureCover, TakesTheNearestLineAndSaysSo) {
    // 30 % lies nearest 25 %, 3.2 m nearest 4 m: .100 of grass at 40 % (read).
    const auto C = cover_of_pasture(pasture(30, 3.2, GroundCover::grass, 40));
    EXPECT_DOUBLE_EQ(C.central, 0.10);
    ASSERT_TRUE(says(C.remarks, "pasture-line"));
    EXPECT_THAT(C.remarks.at(0).text, HasSubstr("canopy 25 % at 4 m"));
}

TEST(PastureCover, FeetAsPeopleWriteThemMeanTheLineBesideThem) {
    for (const double feet : {1.5, 6.5, 13.0})
        EXPECT_FALSE(says(cover_of_pasture(pasture(50, feet * foot, GroundCover::grass, 40)).remarks, "pasture-line"))
            << feet;
}

TEST(PastureCover, BeyondItsLinesSaysWhereTheyLie) {
    EXPECT_THAT(refusal(pasture(95, 2, GroundCover::grass, 40)), HasSubstr("0, 25, 50 and 75 %"));
    EXPECT_THAT(refusal(pasture(50, 7, GroundCover::grass, 40)), HasSubstr("0.5, 2 or 4 m"));
    EXPECT_THAT(refusal(pasture(50, 0, GroundCover::grass, 40)), HasSubstr("0.5, 2 or 4 m"));
    EXPECT_THAT(refusal(pasture(0, 0, GroundCover::grass, 101)), HasSubstr("0 to 100 %"));
}

TEST(PastureCover, OfFreshlyBrokenGroundIsCautioned) {
    PastureCover bare = pasture(0, 0, GroundCover::grass, 0);
    EXPECT_DOUBLE_EQ(cover_of_pasture(bare).central, 0.45);  // the agency copy, read
    EXPECT_TRUE(cover_of_pasture(bare).remarks.empty());
    bare.years_undisturbed = 1;
    EXPECT_TRUE(says(cover_of_pasture(bare).remarks, "pasture-broken"));
    bare.years_undisturbed.reset();
    EXPECT_TRUE(says(cover_of_pasture(bare).remarks, "pasture-undisturbed"));
}

TEST(PastureCover, MoreOnTheGroundNeverLosesMoreAndTheWorkingEndsInC) {
    EXPECT_TRUE(rc::check("any canopy the table takes", [] {
        const double canopy = *rc::gen::inRange(0, 88), height = *rc::gen::inRange(1, 50) / 10.0;
        const auto ground = *rc::gen::element(GroundCover::grass, GroundCover::weeds);
        const double covered = *rc::gen::inRange(0, 100);
        PastureCover cover = pasture(canopy, height, ground, covered);
        cover.print_of_1978 = *rc::gen::arbitrary<bool>();
        const auto less = cover_of_pasture(cover);
        cover.ground_cover_pct = covered + 1;
        RC_ASSERT(cover_of_pasture(cover).central <= less.central);
        RC_ASSERT(less.central >= 0.003);
        RC_ASSERT(less.central <= 0.45);
        const auto& C = less.steps.at(less.steps.size() - 2);
        RC_ASSERT(C.symbol == "C");
        RC_ASSERT(C.value == less.central);
    }));
}

TEST(WoodlandCover, IsTheMiddleOfItsBandByRatioWithTheBandAsSpread) {
    // Table 11, from memory: .002 to .004 at 70-45 % canopy and 85-75 % duff; sqrt(.002 x .004) = .0028284.
    const auto C = cover_of_table(WoodlandCover{60, 80, false, {}}, {});
    EXPECT_NEAR(C.central, 0.0028284, 1e-7);
    EXPECT_DOUBLE_EQ(C.low, 0.002);
    EXPECT_DOUBLE_EQ(C.high, 0.004);
    EXPECT_EQ(C.origin.standing, Standing::from_memory);
}

TEST(WoodlandCover, OfTheReprintIsOneValueThatWasRead) {
    // The reprint, read: .003 from 50 % canopy over 75 % litter on.
    const auto C = cover_of_table(WoodlandCover{60, 80, true, {}}, {});
    EXPECT_DOUBLE_EQ(C.central, 0.003);
    EXPECT_EQ(C.origin.standing, Standing::read_in_source);
}

TEST(WoodlandCover, BetweenBandsThereIsNone) {
    EXPECT_THAT(refusal(WoodlandCover{90, 50, false, {}}), HasSubstr("canopy 70-45 %, duff 85-75 %"));
    EXPECT_THAT(refusal(WoodlandCover{10, 10, true, {}}), HasSubstr("20 % canopy and 40 % litter"));
}

TEST(MulchOnSlope, HoldsToItsLengthAndNoFurther) {
    // Table 9, from memory: two tons of straw on 6-10 % hold .06 to 200 ft.
    const auto C = cover_of_table(straw(2), GroundSlope{0.08, 200 * foot});
    EXPECT_DOUBLE_EQ(C.central, 0.06);
    EXPECT_EQ(C.origin.standing, Standing::from_memory);
    const std::string beyond = refusal(straw(2), GroundSlope{0.08, 210 * foot});
    EXPECT_THAT(beyond, HasSubstr("up to 200 ft (61 m)"));
    EXPECT_THAT(beyond, HasSubstr("210 ft (64 m)"));
}

TEST(MulchOnSlope, TakesARateThatWasConverted) {
    // 4.5 t/ha are 2.007 US tons an acre (2.2417 t/ha each).
    EXPECT_DOUBLE_EQ(cover_of_table(straw(4.5 / 2.2417), GroundSlope{0.08, 30}).central, 0.06);
}

TEST(MulchOnSlope, RowsItLacksAreRefusedWithThoseItHas) {
    EXPECT_THAT(refusal(straw(1.7), GroundSlope{0.08, 30}), HasSubstr("1, 1.5, 2"));
    EXPECT_THAT(refusal(straw(2), GroundSlope{0.6, 5}), HasSubstr("slopes of 1 to 50 %"));
    EXPECT_THAT(refusal(straw(1), GroundSlope{0.2, 5}), HasSubstr("slopes of 1 to 10 %"));
    EXPECT_THAT(refusal(MulchOnSlope{"confetti", 2, {}}, GroundSlope{0.08, 30}), HasSubstr("confetti"));
    EXPECT_THAT(refusal(straw(2)), HasSubstr("slope"));
}

TEST(SiteCover, IsALineOfItsOwnList) {
    // Goldman et al. 1986 as reprinted, read: excelsior or jute .3; the manual's hay at 2 tons .02.
    const auto mat = cover_of_table(SiteCover{"goldman", "excelsior mat or jute", {}}, {});
    EXPECT_DOUBLE_EQ(mat.central, 0.3);
    EXPECT_EQ(mat.origin.citation, "site-covers-goldman");
    EXPECT_TRUE(says(mat.remarks, "site-cover-limits"));
    const auto hay = cover_of_table(SiteCover{"pollution control agency", "hay 2.0 ton/acre", {}}, {});
    EXPECT_DOUBLE_EQ(hay.central, 0.02);
    EXPECT_EQ(hay.origin.citation, "site-covers-agency");
    EXPECT_NE(refusal(SiteCover{"goldman", "competent gravel layer", {}}), "");
}

TEST(StagedCover, WeighsEachRatioByItsShareOfTheRain) {
    // Table 5 line 1, from memory: F 31 %, SB 55 %. By hand 0.31 x 0.1 + 0.55 x 0.3 + 0.1 x 0.6 = 0.256.
    const StagedCover year{{{"F", {}, 1, 0.1}, {"SB", {}, 1, 0.3}, {"rye", 0.1, {}, 0.6}}, {"the file", "", {}}};
    const auto C = cover_of_table(year, {});
    EXPECT_NEAR(C.central, 0.256, 1e-12);
    EXPECT_EQ(C.origin.standing, Standing::from_memory);
    const StagedCover own{{{"rye", 0.1, {}, 1.0}}, {"the file", "", Standing::users_figure}};
    EXPECT_EQ(cover_of_table(own, {}).origin.standing, Standing::users_figure);
}

TEST(StagedCover, ThatIsNoYearOrHasNoRatioIsRefused) {
    EXPECT_THAT(refusal(StagedCover{{{"F", {}, 1, 0.9}}, {}}), HasSubstr("sum to 1"));
    EXPECT_THAT(refusal(StagedCover{{{"F", {}, {}, 1.0}}, {}}), HasSubstr("ratio"));
    EXPECT_THAT(refusal(StagedCover{{{"F", 0.3, 1, 1.0}}, {}}), HasSubstr("ratio"));
    EXPECT_THAT(refusal(StagedCover{{{"P9", {}, 1, 1.0}}, {}}), HasSubstr("P9"));
    EXPECT_THAT(refusal(StagedCover{{{"snow", 0.0, {}, 1.0}}, {}}), HasSubstr("0"));
}

TEST(CoverTables, OnlyFreshGroundLeavesPriorLandUseOut) {
    EXPECT_TRUE(holds_prior_land_use(pasture(0, 0, GroundCover::grass, 60)));
    EXPECT_TRUE(holds_prior_land_use(WoodlandCover{}));
    EXPECT_TRUE(holds_prior_land_use(StagedCover{}));
    EXPECT_TRUE(holds_prior_land_use(SiteCover{"goldman", "native vegetation undisturbed", {}}));
    EXPECT_FALSE(holds_prior_land_use(straw(2)));
    EXPECT_FALSE(holds_prior_land_use(SiteCover{"goldman", "excelsior mat or jute", {}}));
}

TEST(CoverTables, CoverManagementGoesByTheTable) {
    CoverDescription cover;
    cover.table = straw(2);
    EXPECT_DOUBLE_EQ(cover_management(cover, 0.08, 30).central, 0.06);
    EXPECT_THROW(cover_management(cover), std::invalid_argument);
    EXPECT_FALSE(cover.holds_prior_land_use());
    cover.table = WoodlandCover{60, 80, false, {}};
    EXPECT_TRUE(cover.holds_prior_land_use());
}

}  // namespace
}  // namespace soilhold::factors
