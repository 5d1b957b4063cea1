#include "change/comparison.h"

#include <gmock/gmock.h>

#include <cmath>

#include "loss/made_field.h"

namespace soilhold::change {
namespace {

using loss::fell_apart;
using loss::Field;
using loss::held;
using loss::made_field;
using loss::stated;
using loss::tested;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Comparison, OfTheWorkedPairIsFourTimes) {
    const Comparison result = compare({made_field("tilled", 0.32), made_field("no-till", 0.08)}, {});
    ASSERT_EQ(result.pairs.size(), 1U);
    ASSERT_TRUE(result.pairs[0].ratio.has_value());
    EXPECT_NEAR(result.pairs[0].ratio->central, 0.25, 1e-12);  // 0.08 over 0.32: all else cancels
    EXPECT_NEAR(result.pairs[0].saved->central / units::t_ha_per_ton_acre, 16.3, 0.05);
}

TEST(Comparison, WhatBothFieldsStateAlikeCancelsInTheRatio) {
    const Comparison result = compare({made_field("tilled", 0.32), made_field("no-till", 0.08)}, {});
    const auto& pair = result.pairs[0];
    EXPECT_THAT(pair.shared, ElementsAre("R", "K", "slope length", "steepness"));
    // Only the two C are in doubt: the closed form of their quotient, from their default spreads (0.70-1.30;
    // 0.55-1.60).
    const double sd =
        std::sqrt(std::pow(std::log(1.30 / 0.70), 2) + std::pow(std::log(1.60 / 0.55), 2)) / (2 * 1.959964);
    const double width = std::log(pair.ratio->high / pair.ratio->low);
    EXPECT_NEAR(width, 2 * 1.2815516 * sd, 0.02);
    // The trade notes' draws gave 2.8 to 5.6 times for such a pair.
    EXPECT_NEAR(1 / pair.ratio->high, 2.8, 0.3);
    EXPECT_NEAR(1 / pair.ratio->low, 5.6, 0.6);
}

TEST(Comparison, WhatTheFieldsStateApartDoesNotCancel) {
    Field apart = made_field("no-till", 0.08);
    apart.rain.erosivity->origin.from = "another gauge";
    apart.slope.length_m.origin.from = "paced by someone else";
    apart.slope.gradient.origin.from = "another clinometer";
    const Comparison shared = compare({made_field("tilled", 0.32), made_field("no-till", 0.08)}, {});
    const Comparison separate = compare({made_field("tilled", 0.32), apart}, {});
    EXPECT_THAT(separate.pairs[0].shared, ElementsAre("K"));
    EXPECT_LT(shared.pairs[0].ratio->high / shared.pairs[0].ratio->low,
              separate.pairs[0].ratio->high / separate.pairs[0].ratio->low);
}

TEST(Comparison, OfAFieldWithItselfUnderAnotherNameIsOne) {
    const Comparison result = compare({made_field("a", 0.2), made_field("b", 0.2)}, {});
    EXPECT_DOUBLE_EQ(result.pairs[0].ratio->central, 1.0);
    EXPECT_DOUBLE_EQ(result.pairs[0].saved->central, 0.0);
}

TEST(Comparison, OfDifferentSoilsGivesNoRatio) {
    Field other = made_field("clay", 0.08);
    other.map_unit = "Z";
    other.texture_class = "clay";
    other.soil.erodibility = stated(0.20 * units::erodibility_si_per_us);
    const Comparison result = compare({made_field("tilled", 0.32), other}, {});
    EXPECT_EQ(result.pairs[0].fairness.grade, soiltest::Grade::not_comparable);
    EXPECT_FALSE(result.pairs[0].ratio.has_value());
    EXPECT_FALSE(result.pairs[0].saved.has_value());
    EXPECT_FALSE(result.pairs[0].fairness.reasons.empty());
}

TEST(Comparison, OfUnequallyDriedClodsGivesNoRatio) {
    Field hasty = tested(made_field("tilled", 0.32), fell_apart);
    hasty.tests.handling.drying_days = 0.5;
    const Comparison result = compare({hasty, tested(made_field("no-till", 0.08), held)}, {});
    EXPECT_FALSE(result.pairs[0].ratio.has_value());
}

TEST(Comparison, TestsShiftTheRatioByTheQuotientOfTheStructureFactors) {
    const Comparison result =
        compare({tested(made_field("tilled", 0.32), fell_apart), tested(made_field("no-till", 0.08), held)}, {});
    const auto& pair = result.pairs[0];
    ASSERT_TRUE(pair.ratio && pair.structure && pair.tests);
    const double quotient = result.fields[1].factor("m").value.central / result.fields[0].factor("m").value.central;
    EXPECT_NEAR(pair.ratio->central, 0.25 * quotient, 1e-12);
    EXPECT_NEAR(*pair.ratio_without_tests, 0.25, 1e-12);
    EXPECT_LT(quotient, 1.0);
    EXPECT_GT(result.fields[0].loss.central, result.fields[0].loss_without_tests.central);
    EXPECT_THAT(pair.agreement, HasSubstr("same way"));
}

TEST(Comparison, SharedDoubtOfTheReferenceCancelsInTheRatioOfTwoTestedFields) {
    const Comparison result =
        compare({tested(made_field("tilled", 0.3), fell_apart), tested(made_field("no-till", 0.3), held)}, {});
    const auto& pair = result.pairs[0];
    const auto& a = *result.fields[0].structure.assessment;
    const auto& b = *result.fields[1].structure.assessment;
    EXPECT_LT(pair.structure->posterior_log_sd, std::hypot(a.posterior_log_sd, b.posterior_log_sd));
}

TEST(Comparison, TestsThatPointTheOtherWayAreSaidNotHidden) {
    const Comparison result =
        compare({tested(made_field("tilled", 0.32), held), tested(made_field("no-till", 0.08), fell_apart)}, {});
    EXPECT_THAT(result.pairs[0].agreement, HasSubstr("opposite"));
}

TEST(Comparison, SetsEachFieldAgainstEachLaterOne) {
    const Comparison result = compare({made_field("a", 0.3), made_field("b", 0.2), made_field("c", 0.1)}, {});
    ASSERT_EQ(result.pairs.size(), 3U);
    EXPECT_EQ(result.pairs[1].from, 0U);
    EXPECT_EQ(result.pairs[1].to, 2U);
    EXPECT_NEAR(result.pairs[2].ratio->central, 0.5, 1e-12);
}

TEST(Comparison, LossOfAFieldIsTheSameAloneAndCompared) {
    const Comparison alone = estimate({made_field("a", 0.3)}, {});
    const Comparison both = compare({made_field("a", 0.3), made_field("b", 0.1)}, {});
    EXPECT_EQ(alone.fields[0].loss.central, both.fields[0].loss.central);
    EXPECT_NEAR(alone.fields[0].loss.low, both.fields[0].loss.low, 0.01 * alone.fields[0].loss.low);
    EXPECT_TRUE(alone.pairs.empty());
}

}  // namespace
}  // namespace soilhold::change
