#include "structure/structure_factor.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <stdexcept>

#include "handbook/row_file.h"
#include "soiltest/made_record.h"
#include "structure/example_fields.h"

namespace soilhold::structure {
namespace {

using testing::HasSubstr;

std::vector<std::string> codes(const StructureFactor& factor) {
    std::vector<std::string> found;
    for (const source::Remark& remark : factor.remarks) found.push_back(remark.code);
    return found;
}

CountingMode mode_of(const rows::Row& row) {
    return row.text("mode") == "cover_only_C" ? CountingMode::cover_only : CountingMode::credited;
}

/// aggregate-example-two-fields.csv: two fields and their ratio in both modes, worked by a separate sketch.
class ExampleRow : public testing::TestWithParam<rows::Row> {};

TEST_P(ExampleRow, EveryFigureOfTheRowAgrees) {
    const rows::Row& row = GetParam();
    const CountingMode mode = mode_of(row);
    const double printed = 0.5e-4 + 1e-9;  // four decimals in the rows
    if (row.text("field").starts_with("ratio")) {
        const StructureRatio ratio =
            structure_ratio(assessed(ploughed(), Credited::tilled, mode), assessed(no_till(), Credited::no_till, mode));
        EXPECT_NEAR(ratio.pooled, row.value("m_pooled"), printed);
        EXPECT_NEAR(ratio.log_sd, row.value("s_ln"), printed);
        EXPECT_NEAR(ratio.shrinkage, row.value("lambda"), printed);
        EXPECT_NEAR(ratio.ratio, row.value("m"), printed);
        EXPECT_NEAR(ratio.low_90, row.value("lo90"), printed);
        EXPECT_NEAR(ratio.high_90, row.value("hi90"), printed);
        return;
    }
    const bool tilled = row.text("field") == "ploughed";
    const soiltest::Record record = tilled ? ploughed() : no_till();
    const soiltest::Summary tests = soiltest::summarise(record, "silt loam");
    EXPECT_NEAR(tests.slake->mean_class, row.value("mean_class"), 0.5e-3);
    EXPECT_NEAR(tests.slake->standard_error.value(), row.value("se_class"), 0.5e-3);
    EXPECT_NEAR(tests.slake->sd_all_clods.value(), row.value("sd_all_clods"), 0.5e-3);
    EXPECT_NEAR(W_from_class(tests.slake->mean_class), row.value("W_slake"), 0.5e-2);
    const Assessment a = assessed(record, tilled ? Credited::tilled : Credited::no_till, mode);
    EXPECT_NEAR(a.W, row.value("W_combined"), 0.5e-2);
    EXPECT_NEAR(a.W_ref, row.value("W_ref"), 0.5e-2);
    EXPECT_NEAR(example_soil().erodibility_us, row.value("K_us"), printed);
    EXPECT_NEAR(a.m_nomograph, row.value("mA"), printed);
    EXPECT_NEAR(a.m_unstable_fraction.value(), row.value("mB"), printed);
    EXPECT_NEAR(a.m_interrill, row.value("mC"), printed);
    EXPECT_NEAR(a.m_pooled, row.value("m_pooled"), printed);
    EXPECT_NEAR(a.log_sd, row.value("s_ln"), printed);
    EXPECT_NEAR(a.shrinkage, row.value("lambda"), printed);
    EXPECT_NEAR(a.m, row.value("m"), printed);
    EXPECT_NEAR(a.low_90, row.value("lo90"), printed);
    EXPECT_NEAR(a.high_90, row.value("hi90"), printed);
}

INSTANTIATE_TEST_SUITE_P(Rows, ExampleRow, testing::ValuesIn(rows::read("aggregate-example-two-fields.csv")),
                         rows::name_of<testing::TestParamInfo<rows::Row>>);

TEST(StructureFactor, NothingMeasuredIsOne) {
    const StructureFactor found =
        structure_factor({}, example_soil(), Credited::tilled, CountingMode::credited, std::nullopt);
    EXPECT_EQ(found.m(), 1.0);
    EXPECT_EQ(found.why_not, "nothing was measured");
}

TEST(StructureFactor, TheEightyPercentIntervalLiesWithinTheNinety) {
    const Assessment a = assessed(no_till(), Credited::no_till, CountingMode::credited);
    EXPECT_LT(a.low_90, a.low_80);
    EXPECT_LT(a.low_80, a.m);
    EXPECT_LT(a.m, a.high_80);
    EXPECT_LT(a.high_80, a.high_90);
    // 10 % and 90 % lie 1.2816 standard deviations out (any table of the normal law).
    EXPECT_NEAR(std::log(a.high_80 / a.m) / a.posterior_log_sd, 1.2816, 1e-4);
}

TEST(StructureFactor, WithoutClayOrOrganicMatterThereIsNoExpectation) {
    Soil soil = example_soil();
    soil.organic_matter_pct.reset();
    const auto found = factor(ploughed(), soil);
    EXPECT_FALSE(found.assessment);
    EXPECT_THAT(found.why_not, HasSubstr("organic matter is not known"));
    soil = example_soil();
    soil.clay_pct.reset();
    EXPECT_THAT(factor(ploughed(), soil).why_not, HasSubstr("clay is not known"));
}

TEST(StructureFactor, ATestedReferenceStandsInForTheTableAndIsSurer) {
    Soil soil = example_soil();
    soil.clay_pct.reset();
    const auto found = structure_factor(soiltest::summarise(ploughed(), ""), soil, Credited::tilled,
                                        CountingMode::credited, LocalReference{60.25});
    ASSERT_TRUE(found.assessment);
    const Assessment by_table = assessed(ploughed(), Credited::tilled, CountingMode::credited);
    EXPECT_EQ(found.assessment->reference_sd, 5.0);
    EXPECT_DOUBLE_EQ(found.assessment->m_pooled, by_table.m_pooled);
    EXPECT_GT(found.assessment->shrinkage, by_table.shrinkage);
    EXPECT_THAT(codes(found), testing::Contains("structure-reference-method"));
}

TEST(StructureFactor, SpoiltTestsAreNotApplied) {
    soiltest::Record floated = no_till();
    for (soiltest::Spot& spot : floated.slake_spots)
        for (soiltest::Clod& clod : spot.clods) clod.floated = true;
    EXPECT_THAT(factor(floated, example_soil()).why_not, HasSubstr("floated"));

    soiltest::Record cloudy = ploughed();
    cloudy.cloudiness = soiltest::Cloudiness::strong;
    EXPECT_THAT(factor(cloudy, example_soil()).why_not, HasSubstr("cloudy"));

    // Common practice, no source: clods dry for at least a day.
    soiltest::Record damp = no_till();
    damp.handling.drying_days = 0.5;
    EXPECT_THAT(factor(damp, example_soil()).why_not, HasSubstr("half-dry"));
    damp.handling.drying_days = 1.0;
    EXPECT_EQ(factor(damp, example_soil()).why_not, "");
    damp.handling.drying_days = 0.5;
    damp.slake_spots.clear();
    EXPECT_TRUE(factor(damp, example_soil()).assessment) << "loose soil is soaked moist";

    for (const auto position : {soiltest::SpotPosition::fencerow, soiltest::SpotPosition::headland}) {
        soiltest::Record edge = no_till();
        edge.handling.position = position;
        EXPECT_THAT(factor(edge, example_soil()).why_not, HasSubstr("a reference, not a field"));
    }
}

TEST(StructureFactor, FewFloatingClodsAreNoReason) {
    soiltest::Record some = no_till();
    some.slake_spots[0].clods[0].floated = true;
    EXPECT_TRUE(factor(some, example_soil()).assessment);
}

TEST(StructureFactor, SandAndStonesAreOutsideTheLinks) {
    Soil soil = example_soil();
    for (const char* texture : {"sand", "Loamy sand", "very gravelly loam"}) {
        soil.texture_class = texture;
        EXPECT_FALSE(factor(no_till(), soil).assessment) << texture;
    }
    for (const char* texture : {"sandy loam", "silt loam", "clay", "", "gravelly loam"}) {
        soil.texture_class = texture;
        EXPECT_TRUE(factor(no_till(), soil).assessment) << texture;
    }
    soil.texture_class = "gravelly loam";
    EXPECT_THAT(codes(factor(no_till(), soil)), testing::Contains("structure-gravel"));
}

TEST(StructureFactor, SlumpAloneIsAllowedAndDrawnFartherToOne) {
    soiltest::Record slump;
    slump.slump = {soiltest::SlumpVerdict::slurry};
    const auto found = factor(slump, example_soil());
    ASSERT_TRUE(found.assessment);
    EXPECT_THAT(codes(found), testing::Contains("structure-slump-only"));
    EXPECT_EQ(found.assessment->W, 25.0);
    EXPECT_EQ(found.assessment->W_own_sd, 20.0);
    soiltest::Record clods = ploughed();
    clods.slump.clear();
    EXPECT_LT(found.assessment->shrinkage, factor(clods, example_soil()).assessment->shrinkage);
}

TEST(StructureFactor, OneSpotShrinksMoreThanSixOfTheSameMean) {
    const soiltest::Record one = soiltest::clods_of({{2, 2, 2}});
    const soiltest::Record six = soiltest::clods_of({{1, 2, 3}, {2, 2, 2}, {3, 2, 2}, {1, 2, 2}, {2, 3, 1}, {2, 2, 2}});
    const Assessment few = *factor(one, example_soil()).assessment, many = *factor(six, example_soil()).assessment;
    ASSERT_DOUBLE_EQ(few.W, many.W);
    EXPECT_LT(few.shrinkage, many.shrinkage);
    EXPECT_LT(few.m, many.m) << "both above 1, the surer one farther from it";
}

TEST(StructureFactor, ContradictingTestsAreSaid) {
    soiltest::Record record = soiltest::clods_of({{6, 6, 6}, {6, 6, 6}, {6, 6, 6}});
    record.slump = {soiltest::SlumpVerdict::slurry};
    EXPECT_THAT(codes(factor(record, example_soil())), testing::Contains("structure-tests-disagree"));
    EXPECT_THAT(codes(factor(ploughed(), example_soil())), testing::Not(testing::Contains("structure-tests-disagree")));
}

TEST(StructureFactor, NeverLeavesItsClamp) {
    EXPECT_TRUE(rc::check([]() {
        soiltest::Record record;
        record.water_stable_pct = {*rc::gen::inRange(0, 101) / 1.0, *rc::gen::inRange(0, 101) / 1.0};
        Soil soil;
        soil.clay_pct = *rc::gen::inRange(1, 80);
        soil.organic_matter_pct = *rc::gen::inRange(1, 120) / 10.0;
        soil.erodibility_us = *rc::gen::inRange(1, 70) / 100.0;
        const auto mode = *rc::gen::element(CountingMode::credited, CountingMode::cover_only);
        const auto credited = *rc::gen::element(Credited::tilled, Credited::reduced, Credited::no_till);
        const auto found =
            structure_factor(soiltest::summarise(record, ""), soil, credited, mode, std::nullopt).assessment.value();
        RC_ASSERT(found.low_90 >= 0.45 && found.high_90 <= 2.0);
        RC_ASSERT(found.low_90 <= found.m && found.m <= found.high_90);
        // Shrinkage draws towards 1 and never past it.
        RC_ASSERT((found.m - 1.0) * (found.m_pooled - 1.0) >= -1e-12);
        RC_ASSERT(std::abs(std::log(found.m)) <= std::abs(std::log(found.m_pooled)) + 1e-12);
    }));
}

TEST(StructureFactor, CoverOnlyCountingNeverGoesBelowTheConsolidationFloor) {
    // 0.45: consolidation floor of the prior-land-use subfactor, AH 703, from memory
    EXPECT_EQ(least_m(), 0.45);
    EXPECT_EQ(most_m(), 2.0);
}

TEST(StructureFactor, NonsenseIsRefused) {
    Soil soil = example_soil();
    soil.erodibility_us = 0.0;
    EXPECT_THROW(factor(ploughed(), soil), std::invalid_argument);
    EXPECT_THROW(structure_factor(soiltest::summarise(ploughed(), ""), example_soil(), Credited::tilled,
                                  CountingMode::credited, LocalReference{120.0}),
                 std::invalid_argument);
}

TEST(StructureRatio, OfAFieldWithItselfIsOne) {
    const Assessment a = assessed(ploughed(), Credited::tilled, CountingMode::credited);
    EXPECT_DOUBLE_EQ(structure_ratio(a, a).ratio, 1.0);
}

TEST(StructureRatio, TurnsOverWhenTheFieldsAreSwapped) {
    const Assessment a = assessed(ploughed(), Credited::tilled, CountingMode::cover_only);
    const Assessment b = assessed(no_till(), Credited::no_till, CountingMode::cover_only);
    EXPECT_NEAR(structure_ratio(a, b).ratio * structure_ratio(b, a).ratio, 1.0, 1e-12);
}

TEST(StructureRatio, ManagementCreditedDifferentlyAddsItsDoubt) {
    const Assessment a = assessed(ploughed(), Credited::tilled, CountingMode::credited);
    Assessment b = assessed(no_till(), Credited::no_till, CountingMode::credited);
    const double with = structure_ratio(a, b).log_sd;
    b.credited = Credited::tilled;
    const double without = structure_ratio(a, b).log_sd;
    EXPECT_NEAR(with * with - without * without, std::pow(b.slope * 8.0, 2), 1e-12);  // sd 8: our assumption
}

TEST(StructureRatio, TwoReferencesDoNotCancelButOneDoes) {
    Assessment a = assessed(ploughed(), Credited::tilled, CountingMode::credited);
    Assessment b = assessed(no_till(), Credited::tilled, CountingMode::credited);
    const double shared = structure_ratio(a, b).log_sd;
    a.local_reference = b.local_reference = true;
    a.reference_sd = b.reference_sd = 5.0;
    EXPECT_DOUBLE_EQ(structure_ratio(a, b).log_sd, shared);
    b.W_ref += 10.0;
    EXPECT_GT(structure_ratio(a, b).log_sd, shared);
}

TEST(StructureRatio, UsesOnlyLinksThatBothFieldsHave) {
    const Assessment a = assessed(ploughed(), Credited::tilled, CountingMode::credited);
    Assessment b = a;
    b.m_unstable_fraction.reset();
    EXPECT_DOUBLE_EQ(structure_ratio(a, b).pooled, 1.0);
}

}  // namespace
}  // namespace soilhold::structure
