#include "rotation/edits.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "places.h"
#include "rotation/cover_calendar.h"
#include "rotation/operations.h"
#include "rotation/short_forms.h"

namespace soilhold::rotation {
namespace {

using testing::HasSubstr;

std::size_t passes_of(const Rotation& rotation, std::string_view tool) {
    return static_cast<std::size_t>(std::count_if(rotation.operations.begin(), rotation.operations.end(),
                                                  [&](const OperationDone& done) { return done.operation == tool; }));
}

double C(const Rotation& rotation) { return cover_calendar(rotation, corn_belt()).C; }

TEST(Edits, DaysGoRoundTheTurnOfTheRotation) {
    EXPECT_EQ(later({1, 5}, -10, 2), (Day{2, 360}));
    EXPECT_EQ(later({2, 360}, 10, 2), (Day{1, 5}));
    EXPECT_EQ(later({1, 360}, 10, 2), (Day{2, 5}));
}

TEST(Edits, NoTillLeavesNoTillage) {
    const Rotation before = rotation_of_words("corn-soybean, fall plow");
    const Edited edited = no_till(before);
    for (const OperationDone& done : edited.rotation.operations)
        EXPECT_NE(operation_of(done.operation).kind, "tillage") << done.operation;
    EXPECT_EQ(passes_of(edited.rotation, "no-till planter"), 2U);
    EXPECT_EQ(passes_of(edited.rotation, "planter"), 0U);
    EXPECT_EQ(passes_of(edited.rotation, "herbicide"), 2U);
    EXPECT_THAT(edited.sentence, HasSubstr("8 passes of tillage"));
    EXPECT_NEAR(C(edited.rotation), C(rotation_of_words("corn-soybean, no-till")), 1e-9);
    EXPECT_FALSE(no_till(edited.rotation).changed);
}

TEST(Edits, ChiselInsteadOfPlowKeepsTheDays) {
    const Rotation before = rotation_of_words("continuous corn, fall plow");
    const Edited edited = chisel_instead_of_plow(before);
    EXPECT_EQ(passes_of(edited.rotation, "moldboard plow"), 0U);
    EXPECT_EQ(passes_of(edited.rotation, "chisel plow"), 1U);
    EXPECT_LT(C(edited.rotation), C(before));
    EXPECT_FALSE(chisel_instead_of_plow(edited.rotation).changed);
    EXPECT_THROW(tool_instead(before, "moldboard plow", "spoon"), std::invalid_argument);
}

TEST(Edits, ACoverCropEndsTwoWeeksBeforeTheNextSeeding) {
    const Rotation before = rotation_of_words("corn-soybean, fall chisel");
    const Edited edited = cover_crop_after(before, "corn", "cereal rye cover", 14);
    const CropGrown& rye = edited.rotation.crops.back();
    EXPECT_TRUE(rye.cover_crop);
    EXPECT_EQ(*rye.planted, (Day{1, 296}));  // corn harvested on day 293
    EXPECT_EQ(*rye.ended, (Day{2, 121}));    // soybean planted on day 135
    // The chisel that would have gone over it in autumn waits.
    for (const OperationDone& done : edited.rotation.operations)
        EXPECT_FALSE(operation_of(done.operation).kind == "tillage" && done.on > *rye.planted && done.on < *rye.ended);
    EXPECT_LT(C(edited.rotation), C(before));
    EXPECT_THROW(cover_crop_after(before, "cotton", "cereal rye cover"), std::invalid_argument);
    EXPECT_THROW(cover_crop_after(before, "corn", "rye grass of mars"), std::invalid_argument);
    EXPECT_THROW(cover_crop_after(rotation_of_words("winter wheat, no-till"), "winter wheat", "cereal rye cover"),
                 std::invalid_argument);
}

TEST(Edits, StalksTakenAndLeftAgain) {
    const Rotation before = rotation_of_words("continuous corn, no-till");
    const Rotation taken = take_the_stalks(before, 0.7).rotation;
    EXPECT_GT(C(taken), 1.5 * C(before));
    EXPECT_NEAR(C(leave_the_stalks(taken).rotation), C(before), 1e-12);
    EXPECT_FALSE(leave_the_stalks(before).changed);
}

TEST(Edits, TillageOfAutumnMovesToSpring) {
    const Edited edited = tillage_in_spring(rotation_of_words("corn-soybean, fall chisel"));
    for (const OperationDone& done : edited.rotation.operations)
        EXPECT_FALSE(done.operation == "chisel plow" && done.on.day >= 182);
    EXPECT_NEAR(C(edited.rotation), C(rotation_of_words("corn-soybean, spring chisel")), 1e-9);
    // What is done for wheat stays in autumn.
    EXPECT_FALSE(tillage_in_spring(rotation_of_words("winter wheat, fall plow")).changed);
}

TEST(Edits, YearsOfSodPullTheMeanDown) {
    const Rotation before = rotation_of_words("corn-soybean, fall plow");
    const Edited edited = years_of_sod(before, "alfalfa", 3);
    EXPECT_EQ(edited.rotation.years, 5);
    EXPECT_TRUE(problems_of(edited.rotation).empty());
    EXPECT_LT(C(edited.rotation), 0.7 * C(before));
    EXPECT_THROW(years_of_sod(before, "corn", 3), std::invalid_argument);
    EXPECT_THROW(years_of_sod(before, "alfalfa", 0), std::invalid_argument);
    EXPECT_TRUE(problems_of(years_of_sod(rotation_of_words("corn-wheat, fall plow"), "alfalfa", 2).rotation).empty());
}

}  // namespace
}  // namespace soilhold::rotation
