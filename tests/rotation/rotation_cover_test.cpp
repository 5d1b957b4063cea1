#include "rotation/rotation_cover.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "places.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

TEST(RotationCover, CarriesItsDoubtAndItsWorking) {
    const RotationCover cover = cover_of_rotation(rotation_of_words("corn-soybean, fall chisel"), corn_belt());
    EXPECT_NEAR(cover.C.central, cover.calendar.C, 1e-12);
    EXPECT_LT(cover.C.low, 0.8 * cover.C.central);
    EXPECT_GT(cover.C.high, 1.25 * cover.C.central);
    EXPECT_EQ(cover.C.shape, spread::Shape::lognormal);
    const auto named = [&](const char* symbol) {
        return std::find_if(cover.C.steps.begin(), cover.C.steps.end(),
                            [&](const source::Step& step) { return step.symbol == symbol; });
    };
    for (const char* symbol : {"PLU", "CC", "SC", "SR", "C1", "C2", "C"})
        EXPECT_NE(named(symbol), cover.C.steps.end()) << symbol;
    EXPECT_NEAR((named("C1")->value + named("C2")->value) / 2, named("C")->value, 1e-12);
    for (const source::Step& step : cover.C.steps) EXPECT_TRUE(!step.origin.from.empty()) << step.words;
}

TEST(RotationCover, MovesJoinAsSquares) {
    const RotationCover cover = cover_of_rotation(rotation_of_words("continuous corn, no-till"), corn_belt());
    double up = 0;
    for (const Doubt& doubt : cover.doubts)
        up += std::pow(std::log(std::max({1.0, doubt.C_low / cover.C.central, doubt.C_high / cover.C.central})), 2);
    EXPECT_NEAR(std::log(cover.C.high / cover.C.central), std::sqrt(up), 1e-9);
    EXPECT_EQ(cover.doubts.size(), 11U);
}

TEST(RotationCover, AFarmersFigureKeepsItsOwner) {
    Rotation rotation = rotation_of_words("continuous corn, fall chisel");
    rotation.crops[0].yield = spread::Stated{12000, {}, {"the scale ticket", "", source::Standing::users_figure}};
    const RotationCover cover = cover_of_rotation(rotation, corn_belt());
    EXPECT_TRUE(std::any_of(cover.C.steps.begin(), cover.C.steps.end(),
                            [](const source::Step& step) { return step.origin.from == "the scale ticket"; }));
    EXPECT_LT(cover.C.central,
              cover_of_rotation(rotation_of_words("continuous corn, fall chisel"), corn_belt()).C.central);
}

TEST(RotationCover, ARangeGivenWithTheResidueTakesThePlaceOfOurs) {
    Rotation rotation = rotation_of_words("continuous corn, no-till");
    rotation.crops[0].residue = spread::Stated{8000, {}, {}};
    const RotationCover ours = cover_of_rotation(rotation, corn_belt());
    rotation.crops[0].residue->range = spread::Range{7800, 8200};
    const RotationCover given = cover_of_rotation(rotation, corn_belt());
    EXPECT_NEAR(given.C.central, ours.C.central, 1e-12);
    EXPECT_LT(given.C.high / given.C.low, ours.C.high / ours.C.low);
    EXPECT_NEAR(given.doubts[0].low, 0.975, 1e-12);
}

bool says(const RotationCover& cover, const char* code) {
    return std::any_of(cover.C.remarks.begin(), cover.C.remarks.end(),
                       [&](const source::Remark& remark) { return remark.code == code; });
}

TEST(RotationCover, SaysWhenDatesAndWarmthDontFit) {
    Rotation rotation = rotation_of_words("corn-soybean, no-till, rye after corn");
    const RotationCover usual = cover_of_rotation(rotation, corn_belt());
    for (const char* code : {"cover-hardly-grown", "cover-unripe", "cover-crops-overlap"})
        EXPECT_FALSE(says(usual, code)) << code;
    rotation.crops[2].planted = Day{1, 340};
    rotation.crops[2].ended = Day{2, 80};
    rotation.crops[0].ended = Day{1, 200};
    EXPECT_TRUE(says(cover_of_rotation(rotation, corn_belt()), "cover-hardly-grown"));
    EXPECT_TRUE(says(cover_of_rotation(rotation, corn_belt()), "cover-unripe"));
    rotation.crops[0].ended = Day{2, 200};
    EXPECT_TRUE(says(cover_of_rotation(rotation, corn_belt()), "cover-crops-overlap"));
}

TEST(RotationCover, TheUsualDatesOfTheShortFormsFitTheirPlace) {
    for (const Crop& crop : all_crops()) {
        if (crop.kind == "cover" || crop.name == "peanut" || crop.name == "cotton") continue;  // crops of the South
        const RotationCover cover = cover_of_rotation(
            rotation_of_words("corn-" + std::string(crop.name == "grass-legume meadow" ? "meadow" : crop.name) +
                              ", fall chisel"),
            corn_belt());
        EXPECT_FALSE(says(cover, "cover-unripe")) << crop.name;
        EXPECT_FALSE(says(cover, "cover-crops-overlap")) << crop.name;
    }
}

TEST(RotationCover, SaysWhenNoToolSeeds) {
    Rotation rotation = rotation_of_words("continuous corn, no-till");
    rotation.operations.clear();
    const auto remarks = cover_of_rotation(rotation, corn_belt()).C.remarks;
    EXPECT_TRUE(std::any_of(remarks.begin(), remarks.end(),
                            [](const source::Remark& remark) { return remark.code == "cover-no-seeding-tool"; }));
}

}  // namespace
}  // namespace soilhold::rotation
