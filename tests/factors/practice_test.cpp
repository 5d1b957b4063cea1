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

}  // namespace
}  // namespace soilhold::factors
