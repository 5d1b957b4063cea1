#include "soiltest/summary.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "soiltest/made_record.h"

namespace soilhold::soiltest {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

std::vector<std::string> codes(const Summary& summary) {
    std::vector<std::string> found;
    for (const source::Remark& remark : summary.remarks) found.push_back(remark.code);
    return found;
}

TEST(Summary, SpotsAreTheReplicates) {
    // By hand: spot means 2 and 5, so 3.5 +- sd(2, 5)/sqrt 2 = 1.5; pooled clods would give 16/5 = 3.2.
    const Summary summary = summarise(clods_of({{1, 2, 3}, {4, 6}}), "silt loam");
    ASSERT_TRUE(summary.slake);
    EXPECT_EQ(summary.slake->clods, 5);
    EXPECT_EQ(summary.slake->spots, 2);
    EXPECT_DOUBLE_EQ(summary.slake->mean_class, 3.5);
    EXPECT_NEAR(summary.slake->standard_error.value(), 1.5, 1e-12);
    EXPECT_EQ(summary.slake->held, 1);
    EXPECT_EQ(summary.slake->fell_apart, 3);
    EXPECT_EQ(summary.slake->by_class, (std::array<int, 7>{0, 1, 1, 1, 1, 0, 1}));
}

TEST(Summary, ClodsHeldByStonesAreLeftOutAndFloatingOnesCount) {
    Record record = clods_of({{2, 6, 6}, {6}});
    record.slake_spots[0].clods[1].held_by_stone_or_root = true;
    record.slake_spots[0].clods[2].floated = true;
    record.slake_spots[1].clods[0].held_by_stone_or_root = true;
    const Summary summary = summarise(record, "loam");
    EXPECT_EQ(summary.slake->clods, 2);
    EXPECT_EQ(summary.slake->spots, 1) << "a spot with no clod left is no replicate";
    EXPECT_EQ(summary.slake->left_out, 2);
    EXPECT_EQ(summary.slake->floated, 1);
    EXPECT_DOUBLE_EQ(summary.slake->mean_class, 4.0);
    EXPECT_FALSE(summary.slake->standard_error);
    EXPECT_THAT(codes(summary), UnorderedElementsAre("few-clods", "single-spot", "repellent-clods", "void-clods"));
}

TEST(Summary, ACarefulFullTestNeedsNoRemark) {
    EXPECT_THAT(codes(summarise(careful_record({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}}), "silt loam")), IsEmpty());
}

TEST(Summary, OneClodHasNoSpread) {
    const Summary summary = summarise(clods_of({{4}}), "loam");
    EXPECT_THAT(codes(summary), UnorderedElementsAre("single-clod"));
    EXPECT_FALSE(summary.slake->sd_all_clods);
}

TEST(Summary, AllSixesOnSandOrGravelAreDoubted) {
    const Record sixes = clods_of({{6, 6, 6}, {6, 6, 6}, {6, 6, 6}});
    for (const char* texture : {"sand", "Loamy fine sand", "sandy loam", "gravelly loam"})
        EXPECT_THAT(codes(summarise(sixes, texture)), Contains("all-sixes-coarse")) << texture;
    EXPECT_THAT(codes(summarise(sixes, "silt loam")), IsEmpty());
    EXPECT_THAT(codes(summarise(clods_of({{6, 6, 6}, {6, 6, 6}, {6, 6, 5}}), "sand")), IsEmpty());
}

TEST(Summary, AMeanOfTwoKindsOfClodsIsSaid) {
    EXPECT_THAT(codes(summarise(clods_of({{1, 6, 3}, {6, 1, 4}, {2, 5, 1}}), "loam")),
                UnorderedElementsAre("clods-of-two-kinds"));
    EXPECT_THAT(codes(summarise(clods_of({{3, 4, 3}, {4, 3, 4}, {3, 5, 2}}), "loam")), IsEmpty());
}

TEST(Summary, StrongCloudinessAsksForSodiumFirst) {
    Record record = careful_record({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}});
    record.cloudiness = Cloudiness::strong;
    const Summary summary = summarise(record, "loam");
    ASSERT_THAT(codes(summary), UnorderedElementsAre("possible-dispersion"));
    EXPECT_NE(summary.remarks[0].text.find("sodium"), std::string::npos);
    record.cloudiness = Cloudiness::slight;
    EXPECT_THAT(codes(summarise(record, "loam")), IsEmpty());
}

TEST(Summary, HandlingOutOfTheUsualIsSaid) {
    // Common practice, no source: at least a day of air-drying; loose topsoil soaks 60 to 90 s.
    Record record = careful_record({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}});
    record.slump = {SlumpVerdict::slurry};
    record.handling.slump_soak_s = 60.0;
    record.handling.drying_days = 1.0;
    EXPECT_THAT(codes(summarise(record, "loam")), IsEmpty());
    record.handling.slump_soak_s = 90.0;
    EXPECT_THAT(codes(summarise(record, "loam")), IsEmpty());
    record.handling.slump_soak_s = 59.0;
    record.handling.drying_days = 0.5;
    EXPECT_THAT(codes(summarise(record, "loam")), UnorderedElementsAre("soak-time-unusual", "half-dry"));
    record.handling.slump_soak_s = 91.0;
    record.handling.drying_days = 3.0;
    record.handling.days_since_rain = 1.0;
    record.handling.days_since_tillage = 10.0;
    record.handling.position = SpotPosition::fencerow;
    EXPECT_THAT(codes(summarise(record, "loam")),
                UnorderedElementsAre("soak-time-unusual", "recent-rain", "recent-tillage", "not-the-field"));
}

TEST(Summary, TheTypicalSlumpVerdictIsTheMedian) {
    const auto typical = [](std::vector<SlumpVerdict> verdicts) {
        Record record;
        record.slump = std::move(verdicts);
        return summarise(record, "").slump->typical;
    };
    using enum SlumpVerdict;
    EXPECT_EQ(typical({slurry, slurry, partial}), slurry);
    EXPECT_EQ(typical({holds, slurry, partial}), partial);
    EXPECT_EQ(typical({holds, slurry}), partial);
    EXPECT_EQ(typical({holds, holds, slurry}), holds);
}

TEST(Summary, LaboratoryFiguresKeepTheirErrorOfTheMean) {
    Record record;
    record.water_stable_pct = {40.0, 50.0, 60.0};
    record.mean_weight_diameter_mm = {1.2};
    const Summary summary = summarise(record, "");
    EXPECT_DOUBLE_EQ(summary.water_stable_pct->mean, 50.0);
    EXPECT_NEAR(summary.water_stable_pct->standard_error.value(), 10.0 / std::sqrt(3.0), 1e-12);
    EXPECT_FALSE(summary.mean_weight_diameter_mm->standard_error);
    EXPECT_FALSE(summary.slake);
}

TEST(Summary, AnEmptyRecordSaysNothing) {
    const Summary summary = summarise({}, "sand");
    EXPECT_FALSE(summary.slake || summary.slump || summary.water_stable_pct || summary.mean_weight_diameter_mm);
    EXPECT_THAT(codes(summary), IsEmpty());
}

TEST(Summary, AClassOffTheScaleIsRefused) {
    EXPECT_THROW(summarise(clods_of({{7}}), ""), std::invalid_argument);
    EXPECT_THROW(summarise(clods_of({{-1}}), ""), std::invalid_argument);
}

TEST(Difference, CountsInASentenceAndTheChanceOverSpots) {
    // Practitioner's worked story: 0 of 18 against 16 of 18 clods at class 5 and 6; means 1.7 and 5.6.
    const Record tilled = clods_of({{1, 1, 1, 2, 2, 3}, {1, 1, 1, 2, 2, 3}, {1, 1, 1, 2, 2, 3}});
    const Record no_till = clods_of({{6, 6, 6, 6, 5, 4}, {6, 6, 6, 6, 5, 5}, {6, 6, 6, 6, 5, 4}});
    const Difference found = difference(tilled, "North", no_till, "South");
    EXPECT_EQ(found.counts_sentence, "0 of 18 clods of 'North' held; 16 of 18 of 'South' did.");
    EXPECT_NEAR(found.mean_class_difference, 5.556 - 1.667, 0.001);
    EXPECT_EQ(found.chance_second_higher, 1.0);
}

TEST(Difference, NeedsClodsOnBothSides) {
    EXPECT_THROW(difference(clods_of({{1}}), "North", {}, "South"), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::soiltest
