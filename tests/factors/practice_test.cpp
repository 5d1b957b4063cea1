#include "factors/practice.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "factors/contouring.h"

namespace soilhold::factors {
namespace {

constexpr double foot = 0.3048;

PracticeDescription contour() {
    PracticeDescription practice;
    practice.contouring = true;
    return practice;
}

TEST(Practice, NoneIsExactlyOne) {
    const auto P = support_practice({}, 0.06, 60);
    EXPECT_DOUBLE_EQ(P.central, 1.0);
    EXPECT_EQ(P.shape, spread::Shape::exact);
}

TEST(Practice, AGivenFigureIsKept) {
    PracticeDescription practice;
    practice.factor = spread::Stated{0.7, std::nullopt, {"local office", "", {}}};
    const auto P = support_practice(practice, 0.06, 1000);
    EXPECT_DOUBLE_EQ(P.central, 0.7);
    EXPECT_EQ(P.origin.from, "local office");
}

TEST(Contouring, ClassesAreThoseOfTheHandbook) {
    // AH 537 (1978) Table 13, from memory: P and length limit in ft.
    const double table[][3] = {{1, 0.6, 400}, {2, 0.6, 400}, {3, 0.5, 300},  {5, 0.5, 300}, {6, 0.5, 200},
                               {8, 0.5, 200}, {9, 0.6, 120}, {12, 0.6, 120}, {13, 0.7, 80}, {16, 0.7, 80},
                               {17, 0.8, 60}, {20, 0.8, 60}, {21, 0.9, 50},  {25, 0.9, 50}};
    for (const auto& [percent, P, limit_ft] : table) {
        const auto row = contouring(percent / 100);
        ASSERT_TRUE(row) << percent;
        EXPECT_DOUBLE_EQ(row->P, P) << percent;
        EXPECT_NEAR(row->length_limit_m / foot, limit_ft, 1e-9) << percent;
    }
}

TEST(Contouring, GapsOfTheTableBelongToTheNearerClass) {
    EXPECT_DOUBLE_EQ(contouring(0.024)->P, 0.6);
    EXPECT_DOUBLE_EQ(contouring(0.026)->P, 0.5);
    EXPECT_NEAR(contouring(0.054)->length_limit_m / foot, 300, 1e-9);
    EXPECT_NEAR(contouring(0.056)->length_limit_m / foot, 200, 1e-9);
}

TEST(Contouring, BeyondItsLengthItIsWithdrawn) {
    const auto within = support_practice(contour(), 0.06, 200 * foot);
    EXPECT_DOUBLE_EQ(within.central, 0.5);
    EXPECT_TRUE(within.remarks.empty());
    const auto beyond = support_practice(contour(), 0.06, 201 * foot);
    EXPECT_DOUBLE_EQ(beyond.central, 1.0);
    ASSERT_EQ(beyond.remarks.size(), 1U);
    EXPECT_EQ(beyond.remarks[0].code, "contour-length");
    EXPECT_NE(beyond.remarks[0].text.find("200 ft"), std::string::npos);
    EXPECT_NE(beyond.remarks[0].text.find("201 ft"), std::string::npos);
}

TEST(Contouring, HeavyResidueReachesAQuarterFarther) {
    // AH 537 (1978) Table 13, from memory: raised 25 % where residue after seedlings exceeds half.
    auto practice = contour();
    practice.heavy_residue = true;
    EXPECT_DOUBLE_EQ(support_practice(practice, 0.06, 250 * foot).central, 0.5);
    EXPECT_DOUBLE_EQ(support_practice(practice, 0.06, 251 * foot).central, 1.0);
}

TEST(Contouring, OutsideItsSlopesItGivesNoCredit) {
    EXPECT_DOUBLE_EQ(support_practice(contour(), 0.25, 10 * foot).central, 0.9);
    const auto steep = support_practice(contour(), 0.26, 10 * foot);
    EXPECT_DOUBLE_EQ(steep.central, 1.0);
    EXPECT_EQ(steep.remarks.at(0).code, "contour-slope");
    EXPECT_EQ(support_practice(contour(), 0.004, 10 * foot).remarks.at(0).code, "contour-slope");
}

TEST(Contouring, RowsOffTheContourLoseTheirCredit) {
    // AH 703 ch. 6, from memory: 0.5 + 0.5 (2/8)^0.5 = 0.75.
    auto practice = contour();
    practice.row_grade = 0.02;
    EXPECT_DOUBLE_EQ(support_practice(practice, 0.08, 100 * foot).central, 0.75);
    practice.row_grade = 0.08;
    EXPECT_DOUBLE_EQ(support_practice(practice, 0.08, 100 * foot).central, 1.0);
}

TEST(Contouring, PStaysBetweenTheLevelRowsAndOne) {
    EXPECT_TRUE(rc::check("any slope, length and row grade", [] {
        auto practice = contour();
        const double gradient = *rc::gen::inRange(1, 600) / 1000.0;
        practice.row_grade = *rc::gen::inRange(0, 1000) / 1000.0 * gradient;
        practice.heavy_residue = *rc::gen::arbitrary<bool>();
        const double P = support_practice(practice, gradient, *rc::gen::inRange(1, 400)).central;
        RC_ASSERT(P >= 0.5);
        RC_ASSERT(P <= 1.0);
    }));
}

PracticeDescription strips(StripRotation rotation, std::optional<double> width_ft = {}) {
    PracticeDescription practice;
    practice.strips = StripCropping{rotation, width_ft ? std::optional(*width_ft * foot) : std::nullopt};
    return practice;
}

PracticeDescription terraced(double interval_ft, TerraceOutlet outlet = TerraceOutlet::sod_channel) {
    PracticeDescription practice;
    practice.contouring = true;
    practice.terraces = Terraces{{interval_ft * foot, {}, {"a test", "", {}}}, {}, outlet, {}};
    return practice;
}

TEST(Strips, TakeTheirFactorAndHoldTheContour) {
    // AH 537 (1978) Table 14, from memory: 6 %, two years of meadow 0.25, one year 0.38, none 0.50.
    EXPECT_DOUBLE_EQ(support_practice(strips(StripRotation::meadow_two_years), 0.06, 60).central, 0.25);
    EXPECT_DOUBLE_EQ(support_practice(strips(StripRotation::meadow_one_year), 0.06, 60).central, 0.38);
    EXPECT_DOUBLE_EQ(support_practice(strips(StripRotation::no_meadow), 0.06, 60).central, 0.50);
}

TEST(Strips, BeyondTheirLengthLimitEarnNothing) {
    // the same table: strips on 6 to 8 % hold up to 400 ft of slope
    EXPECT_DOUBLE_EQ(support_practice(strips(StripRotation::meadow_two_years), 0.07, 399 * foot).central, 0.25);
    const auto P = support_practice(strips(StripRotation::meadow_two_years), 0.07, 410 * foot);
    EXPECT_DOUBLE_EQ(P.central, 1.0);
    ASSERT_EQ(P.remarks.size(), 1U);
    EXPECT_EQ(P.remarks[0].code, "strips-length");
}

TEST(Strips, WiderThanTheTableCountAsContouring) {
    // widest strip on 6 to 8 %: 100 ft (read in a conservation centre's list); contouring there P 0.50
    EXPECT_DOUBLE_EQ(support_practice(strips(StripRotation::meadow_two_years, 100), 0.07, 50).central, 0.25);
    const auto P = support_practice(strips(StripRotation::meadow_two_years, 130), 0.07, 50);
    EXPECT_DOUBLE_EQ(P.central, 0.50);
    EXPECT_EQ(P.remarks.at(0).code, "strips-wide");
}

TEST(TerracedField, HasTheIntervalForItsSlopeLength) {
    const spread::Stated whole{100, {}, {}};
    EXPECT_DOUBLE_EQ(length_left(terraced(100), whole).value, 100 * foot);
    EXPECT_DOUBLE_EQ(length_left(terraced(600), whole).value, 100);
    EXPECT_DOUBLE_EQ(length_left({}, whole).value, 100);
}

TEST(TerracedField, KeepsThePOfItsRowsAndWhatLeavesApart) {
    // AH 537 (1978) Table 15, from memory: 3 to 8 %, contoured between 0.50; sediment over sod outlets 0.10,
    // underground 0.05: a fifth and a tenth of the loss leaves.
    EXPECT_DOUBLE_EQ(support_practice(terraced(100), 0.06, 30).central, 0.50);
    EXPECT_DOUBLE_EQ(share_leaving(terraced(100), 0.06)->central, 0.2);
    EXPECT_DOUBLE_EQ(share_leaving(terraced(100, TerraceOutlet::underground), 0.06)->central, 0.1);
    EXPECT_FALSE(share_leaving(contour(), 0.06));
}

TEST(TerracedField, ByHandbook703MultipliesAndLetsNothingCountTwice) {
    // AH 703 (1997) ch. 6, from memory: 110 to 140 ft at a grade of 0.1 to 0.3 %: 0.7; underground 0.6.
    PracticeDescription practice = terraced(120);
    practice.terraces->method = TerraceMethod::handbook_703;
    practice.terraces->grade = 0.003;
    EXPECT_NEAR(support_practice(practice, 0.06, 30).central, 0.50 * 0.7, 1e-12);
    EXPECT_FALSE(share_leaving(practice, 0.06)) << "the trapping is in P already";
    practice.terraces->outlet = TerraceOutlet::underground;
    EXPECT_NEAR(support_practice(practice, 0.06, 30).central, 0.50 * 0.6, 1e-12);
}

TEST(BufferStrips, CatchWhatTheTrialSawAndLeavePAlone) {
    // One trial's flood year with grass on a tenth of the slope, read in a report: 40 % less along the contour, 63 %
    // less at the foot.
    PracticeDescription practice;
    practice.buffers = BufferStrips{BufferPlace::along_the_contour, 0.10};
    EXPECT_DOUBLE_EQ(support_practice(practice, 0.06, 60).central, 1.0);
    EXPECT_NEAR(share_leaving(practice, 0.06)->central, 0.60, 1e-12);
    practice.buffers->place = BufferPlace::foot_of_the_slope;
    EXPECT_NEAR(share_leaving(practice, 0.06)->central, 0.37, 1e-12);
    practice.buffers->slope_share = 0.3;
    EXPECT_FALSE(share_leaving(practice, 0.06)) << "strips on 30 % were not tried";
}

}  // namespace
}  // namespace soilhold::factors
