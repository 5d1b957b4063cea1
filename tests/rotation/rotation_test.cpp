#include "rotation/rotation.h"

#include <gmock/gmock.h>

namespace soilhold::rotation {
namespace {

using testing::HasSubstr;

CropGrown corn(Day planted, Day ended) {
    CropGrown grown;
    grown.crop = "corn";
    grown.planted = planted;
    grown.ended = ended;
    return grown;
}

TEST(Rotation, HalfMonthsBeginOnThe1stAndThe16th) {
    EXPECT_EQ(first_day(0), 1);
    EXPECT_EQ(first_day(1), 16);
    EXPECT_EQ(first_day(2), 32);    // 1 February
    EXPECT_EQ(first_day(11), 167);  // 16 June
    EXPECT_EQ(first_day(24), 366);
    for (std::size_t i = 0; i < half_months; ++i) {
        EXPECT_EQ(half_month_of(first_day(i)), i);
        EXPECT_EQ(half_month_of(first_day(i + 1) - 1), i);
    }
}

TEST(Rotation, KnowsTheDaysOfTheYear) {
    EXPECT_EQ(day_of_year(1, 1), 1);
    EXPECT_EQ(day_of_year(5, 1), 121);
    EXPECT_EQ(day_of_year(12, 31), 365);
    EXPECT_EQ(day_of_year(2, 29), 59);
    EXPECT_THROW(day_of_year(4, 31), std::invalid_argument);
    EXPECT_THROW(day_of_year(13, 1), std::invalid_argument);
}

TEST(Rotation, AnUnknownCropNamesTheNearest) {
    Rotation rotation;
    rotation.crops.push_back(corn({1, 120}, {1, 290}));
    rotation.crops[0].crop = "soybaen";
    const auto problems = problems_of(rotation);
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_EQ(problems[0].part, Part::crop);
    EXPECT_EQ(problems[0].code, "unknown-crop");
    EXPECT_THAT(problems[0].text, HasSubstr("'soybean'"));
}

TEST(Rotation, CollectsEveryProblemAtOnce) {
    Rotation rotation;
    rotation.years = 2;
    rotation.crops.push_back(corn({1, 120}, {3, 290}));
    rotation.crops.push_back(corn({1, 400}, {1, 290}));
    rotation.crops.push_back(corn({1, 120}, {1, 120}));
    rotation.operations.push_back({"moldbord plow", {1, 100}, {}, {}, {}, {}});
    rotation.removed.push_back({{1, 300}, {1.5, {}, {}}});
    rotation.added.push_back({{1, 300}, "gold", {-3.0, {}, {}}});
    rotation.grazing.push_back({{1, 10}, {1, 10}, {1.0, {}, {}}});
    EXPECT_EQ(problems_of(rotation).size(), 9U);
}

TEST(Rotation, ACropOverTheTurnOfTheRotationIsNoProblem) {
    Rotation rotation;
    rotation.crops.push_back(corn({1, 274}, {1, 191}));
    rotation.crops[0].crop = "winter wheat";
    EXPECT_TRUE(problems_of(rotation).empty());
}

TEST(Rotation, NothingGrownAndNothingDoneIsNoRotation) { EXPECT_EQ(problems_of(Rotation{}).size(), 1U); }

}  // namespace
}  // namespace soilhold::rotation
