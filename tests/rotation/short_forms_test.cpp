#include "rotation/short_forms.h"

#include <gmock/gmock.h>

#include "places.h"
#include "rotation/cover_calendar.h"
#include "rotation/crops.h"

namespace soilhold::rotation {
namespace {

using testing::HasSubstr;

std::string refusal(const char* words) {
    try {
        rotation_of_words(words);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "";
}

TEST(ShortForms, CornSoybeanFallChisel) {
    const Rotation rotation = rotation_of_words("corn-soybean, fall chisel");
    EXPECT_EQ(rotation.years, 2);
    ASSERT_EQ(rotation.crops.size(), 2U);
    EXPECT_EQ(rotation.crops[0].crop, "corn");
    EXPECT_EQ(*rotation.crops[1].planted, (Day{2, 135}));
    EXPECT_EQ(rotation.origin.standing, source::Standing::our_assumption);
    EXPECT_TRUE(problems_of(rotation).empty());
}

TEST(ShortForms, WinterWheatAfterSoybeanWaitsForTheHarvest) {
    const Rotation rotation = rotation_of_words("corn-soybean-wheat, no-till");
    const CropGrown& wheat = rotation.crops[2];
    EXPECT_EQ(wheat.crop, "winter wheat");
    EXPECT_EQ(*wheat.planted, (Day{2, 283}));  // soybean is harvested on day 278
    EXPECT_EQ(*wheat.ended, (Day{3, 191}));
}

TEST(ShortForms, YearsOfAlfalfaAreOneStand) {
    const Rotation rotation = rotation_of_words("corn-oats-alfalfa-alfalfa, fall plow");
    EXPECT_EQ(rotation.crops.size(), 3U);
    EXPECT_EQ(*rotation.crops[2].planted, (Day{3, 105}));
    EXPECT_EQ(*rotation.crops[2].ended, (Day{4, 300}));
    EXPECT_FALSE(rotation_of_words("alfalfa").crops[0].planted.has_value());
}

TEST(ShortForms, CoverCropsAndBaledStalks) {
    const Rotation rotation =
        rotation_of_words("corn-soybean, no-till, rye after corn ended 7 days before, stalks baled");
    ASSERT_EQ(rotation.crops.size(), 3U);
    EXPECT_EQ(*rotation.crops[2].ended, (Day{2, 128}));
    EXPECT_EQ(rotation.removed.size(), 2U);
    EXPECT_EQ(rotation_of_words("corn-soybean, no-till, cereal rye cover").crops.size(), 4U);
}

TEST(ShortForms, SayWhatWasNotUnderstood) {
    EXPECT_THAT(refusal("corn-soybeens, no-till"), HasSubstr("the nearest is 'soybean'"));
    EXPECT_THAT(refusal("corn-soybean"), HasSubstr("fall chisel"));
    EXPECT_THAT(refusal("corn-soybean, no-till, prayer"), HasSubstr("'prayer'"));
    EXPECT_THAT(refusal(""), HasSubstr("begins with its crops"));
}

TEST(ShortForms, EveryCropWithEveryTillageMakesACalendar) {
    for (const std::string& tillage : tillage_words())
        for (const Crop& crop : all_crops()) {
            if (crop.kind == "cover") continue;
            const Rotation rotation = rotation_of_words(
                crop.name == "grass-legume meadow" ? "corn-meadow, " + tillage : "corn-" + crop.name + ", " + tillage);
            const double C = cover_calendar(rotation, corn_belt()).C;
            EXPECT_TRUE(C > 0.005 && C < 0.7) << crop.name << ", " << tillage << ": " << C;
        }
}

}  // namespace
}  // namespace soilhold::rotation
