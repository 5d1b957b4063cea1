#include "watershed/pits.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "raster/raster_error.h"

namespace soilhold::watershed {
namespace {

using testing::HasSubstr;

std::string cautions_of(const PitRules& rules, const PitReport& pits, double cell_m = 5) {
    source::Remarks remarks;
    add_pit_cautions("dem.tif", rules, pits, cell_m, 1000, remarks);
    std::string all;
    for (const source::Remark& remark : remarks) all += remark.code + ": " + remark.text + "\n";
    return all;
}

TEST(Pits, ACutOverMoreCellsThanAreSearchedIsRefusedWithTheLengthThatFits) {
    PitRules rules;
    rules.cuts = {.longest_m = 300, .deepest_m = 3};
    EXPECT_NO_THROW(check_cuts("dem.tif", rules, 0.6));
    try {
        check_cuts("dem.tif", rules, 0.5);
        FAIL() << "600 cells were taken";
    } catch (const raster::RasterError& error) {
        EXPECT_EQ(error.code(), "cut-too-long");
        EXPECT_THAT(error.what(), HasSubstr("600 of its cells"));
        EXPECT_THAT(error.what(), HasSubstr("--longest-cut of at most 250 m"));
    }
}

TEST(Pits, ADeepPitAsksForCuttingOrForLargerLimits) {
    PitReport pits;
    pits.filled.deepest_m = 6;
    EXPECT_THAT(cautions_of({}, pits), HasSubstr("then --pits breach cuts it through"));
    PitRules rules;
    rules.cuts.emplace();
    EXPECT_THAT(cautions_of(rules, pits), HasSubstr("no cut up to 100 m long and 3 m deep drains it"));
    pits.filled.deepest_m = 4;
    EXPECT_EQ(cautions_of(rules, pits), "");
}

TEST(Pits, ACutShorterThanTwoCellsIsSaid) {
    PitRules rules;
    rules.cuts.emplace();
    EXPECT_EQ(cautions_of(rules, {}, 50), "");
    EXPECT_THAT(cautions_of(rules, {}, 60), HasSubstr("cut-too-short"));
}

}  // namespace
}  // namespace soilhold::watershed
