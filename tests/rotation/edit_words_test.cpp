#include "rotation/edit_words.h"

#include <gmock/gmock.h>

#include "places.h"
#include "rotation/cover_calendar.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

using testing::HasSubstr;

const char* const as_now = "corn-soybean, fall plow, stalks baled";

double C(const Rotation& rotation) { return cover_calendar(rotation, corn_belt()).C; }

Rotation by(const char* words) { return edit_by_words(rotation_of_words(as_now), words).rotation; }

TEST(EditWords, MakeTheEditThatTheyName) {
    const Rotation now = rotation_of_words(as_now);
    EXPECT_DOUBLE_EQ(C(by("no-till")), C(no_till(now).rotation));
    EXPECT_DOUBLE_EQ(C(by("chisel instead of plow")), C(chisel_instead_of_plow(now).rotation));
    EXPECT_DOUBLE_EQ(C(by("sweep chisel plow instead of moldboard plow")),
                     C(tool_instead(now, "moldboard plow", "sweep chisel plow").rotation));
    EXPECT_DOUBLE_EQ(C(by("cover crop after corn, ended two weeks before planting")),
                     C(cover_crop_after(now, "corn", "cereal rye cover", 14).rotation));
    EXPECT_DOUBLE_EQ(C(by("hairy vetch after corn, ended 10 days before")),
                     C(cover_crop_after(now, "corn", "hairy vetch cover", 10).rotation));
    EXPECT_DOUBLE_EQ(C(by("leave the stalks")), C(leave_the_stalks(now).rotation));
    EXPECT_DOUBLE_EQ(C(by("take 50 % of the stalks")), C(take_the_stalks(now, 0.5).rotation));
    EXPECT_DOUBLE_EQ(C(by("take the stalks")), C(take_the_stalks(now, 0.7).rotation));
    EXPECT_DOUBLE_EQ(C(by("take 40 % of the stalks after corn")), C(take_the_stalks(now, 0.4, "corn").rotation));
    EXPECT_NE(C(by("take 40 % of the stalks after corn")), C(take_the_stalks(now, 0.4).rotation));
    EXPECT_DOUBLE_EQ(C(by("till in spring")), C(tillage_in_spring(now).rotation));
    EXPECT_DOUBLE_EQ(C(by("tillage in spring")), C(tillage_in_spring(now).rotation));
    EXPECT_DOUBLE_EQ(C(by("three years of alfalfa")), C(years_of_sod(now, "alfalfa", 3).rotation));
}

TEST(EditWords, AreJoinedByPlus) {
    const Edited edited = edit_by_words(rotation_of_words(as_now), "no-till + leave the stalks + rye after corn");
    EXPECT_THAT(edited.sentence, HasSubstr("No-till"));
    EXPECT_THAT(edited.sentence, HasSubstr("Cereal rye cover after corn"));
    EXPECT_LT(C(edited.rotation), C(by("no-till")));
}

TEST(EditWords, SayWhatIsKnown) {
    const auto refused = [](const char* words) {
        try {
            by(words);
        } catch (const std::invalid_argument& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    EXPECT_THAT(refused("pray"), HasSubstr("'chisel instead of plow'"));
    EXPECT_THAT(refused("chisle plow instead of plow"), HasSubstr("the nearest is 'chisel plow'"));
    EXPECT_THAT(refused("cover crop after corn, ended late"), HasSubstr("ended 10 days before"));
    EXPECT_THAT(refused("take half of the stalks"), HasSubstr("how much"));
    EXPECT_THAT(refused("take a third of the stalks"), HasSubstr("how much"));
    EXPECT_THAT(refused("cover crop after cotton"), HasSubstr("no cotton is grown"));
}

}  // namespace
}  // namespace soilhold::rotation
