#include "soiltest/fairness.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "soiltest/made_record.h"

namespace soilhold::soiltest {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const Site site{"SkC", "loam", 0.30, 0.06};

Record weak() { return careful_record({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}}); }
Record strong() { return careful_record({{5, 6, 5}, {6, 5, 4}, {5, 5, 6}}); }

std::vector<std::string> codes(const Fairness& fairness) {
    std::vector<std::string> found;
    for (const Reason& reason : fairness.reasons) found.push_back(reason.code);
    return found;
}

/// The pair after the second record was changed.
Fairness after(const std::function<void(Record&)>& change) {
    Record second = strong();
    change(second);
    return fairness(weak(), site, second, site);
}

Fairness after_handling(const std::function<void(Handling&)>& change) {
    return after([&](Record& record) { change(record.handling); });
}

Fairness on(const Site& first, const Site& second) { return fairness(weak(), first, strong(), second); }

TEST(Fairness, SameSoilHandledAlikeIsFair) {
    const Fairness found = fairness(weak(), site, strong(), site);
    EXPECT_EQ(found.grade, Grade::fair);
    EXPECT_THAT(codes(found), IsEmpty());
}

TEST(Fairness, GradesHaveTheWordsOfTheReport) {
    EXPECT_EQ(words_for(Grade::fair), "fair");
    EXPECT_EQ(words_for(Grade::show_only), "show only");
    EXPECT_EQ(words_for(Grade::not_comparable), "not comparable");
}

TEST(Fairness, OneDriedAndOneMoistIsNotComparable) {
    // Common practice, no source: at least a day of air-drying, both alike.
    const Fairness found = after_handling([](Handling& h) { h.drying_days = 0.5; });
    EXPECT_EQ(found.grade, Grade::not_comparable);
    ASSERT_THAT(codes(found), ElementsAre("moisture-differs"));
    EXPECT_THAT(found.reasons[0].text, HasSubstr("4 days"));
    EXPECT_THAT(found.reasons[0].text, HasSubstr("12 hours"));
    EXPECT_THAT(found.reasons[0].redo, HasSubstr("Air-dry"));
}

TEST(Fairness, TwoHalfDrySamplesAreNotComparableEither) {
    Record first = weak(), second = strong();
    first.handling.drying_days = second.handling.drying_days = 0.9;
    const Fairness found = fairness(first, site, second, site);
    EXPECT_EQ(found.grade, Grade::not_comparable);
    EXPECT_THAT(codes(found), ElementsAre("both-half-dry"));
}

TEST(Fairness, ADayIsDryEnoughAndADayApartIsAlike) {
    Record first = weak(), second = strong();
    first.handling.drying_days = 1.0;
    second.handling.drying_days = 2.0;
    EXPECT_EQ(fairness(first, site, second, site).grade, Grade::fair);
}

TEST(Fairness, ThreeAgainstFiveDaysOfDryingIsShowOnly) {
    Record first = weak(), second = strong();
    first.handling.drying_days = 3.0;
    second.handling.drying_days = 5.0;
    const Fairness found = fairness(first, site, second, site);
    EXPECT_EQ(found.grade, Grade::show_only);
    EXPECT_THAT(codes(found), ElementsAre("drying-differs"));
}

TEST(Fairness, ClodsOfOtherSizesAreNotComparable) {
    const Fairness found = after_handling([](Handling& h) {
        h.clod_least_mm = 18.0;
        h.clod_most_mm = 22.0;
    });
    EXPECT_EQ(found.grade, Grade::not_comparable);
    EXPECT_THAT(codes(found), ElementsAre("clod-size-differs"));
    EXPECT_THAT(found.reasons[0].text, HasSubstr("6 to 8 mm and 18 to 22 mm"));
}

TEST(Fairness, PartlyLikeSizesAreShowOnlyAndNearlyLikeOnesFair) {
    const auto with = [](double least, double most) {
        return after_handling([=](Handling& h) {
            h.clod_least_mm = least;
            h.clod_most_mm = most;
        });
    };
    EXPECT_THAT(codes(with(7.0, 12.0)), ElementsAre("clod-size-partly"));
    EXPECT_EQ(with(6.0, 9.0).grade, Grade::fair);
}

TEST(Fairness, OtherDepthIsNotComparableButTwoInchesAreFiveCentimetres) {
    EXPECT_THAT(codes(after_handling([](Handling& h) { h.depth_bottom_mm = 152.4; })), ElementsAre("depth-differs"));
    EXPECT_EQ(after_handling([](Handling& h) { h.depth_bottom_mm = 50.8; }).grade, Grade::fair);
    EXPECT_EQ(after_handling([](Handling& h) { h.depth_top_mm = 25.0; }).grade, Grade::not_comparable);
}

TEST(Fairness, JustTilledAgainstLongSettledIsNotComparable) {
    const Fairness found = after_handling([](Handling& h) { h.days_since_tillage = 14.0; });
    EXPECT_EQ(found.grade, Grade::not_comparable);
    EXPECT_THAT(codes(found), ElementsAre("recent-tillage-differs"));
    EXPECT_EQ(after_handling([](Handling& h) { h.days_since_tillage = 15.0; }).grade, Grade::fair);
}

TEST(Fairness, OtherTextureIsNotComparable) {
    EXPECT_THAT(codes(on(site, {"SkC", "silt loam", 0.30, 0.06})), ElementsAre("texture-differs"));
    EXPECT_EQ(on(site, {"SkC", "Loam ", 0.30, 0.06}).grade, Grade::fair) << "spelling is not soil";
}

TEST(Fairness, AnotherMapUnitIsTheSameSoilOnlyWhenTextureAndKAgree) {
    EXPECT_EQ(on(site, {"SkB", "loam", 0.33, 0.06}).grade, Grade::fair);
    EXPECT_THAT(codes(on(site, {"SkB", "loam", 0.34, 0.06})), ElementsAre("soil-differs"));
    EXPECT_EQ(on(site, {"SkC", "loam", 0.34, 0.06}).grade, Grade::fair) << "one map unit is one soil";
    EXPECT_THAT(codes(on(site, {"SkB", "", 0.30, 0.06})), ElementsAre("not-recorded"));
}

TEST(Fairness, SlopesMoreThanTwoPointsApartAreNotComparable) {
    EXPECT_EQ(on(site, {"SkC", "loam", 0.30, 0.08}).grade, Grade::fair);
    const Fairness found = on(site, {"SkC", "loam", 0.30, 0.085});
    EXPECT_EQ(found.grade, Grade::not_comparable);
    ASSERT_THAT(codes(found), ElementsAre("slope-differs"));
    EXPECT_THAT(found.reasons[0].text, HasSubstr("6 % and 8.5 %"));
}

TEST(Fairness, FewClodsAreShownAndVeryFewOnlyPictured) {
    const auto with = [](int clods) {
        return after([=](Record& record) {
            record.slake_spots.resize(1);
            record.slake_spots[0].clods.assign(static_cast<std::size_t>(clods), {5, false, false});
        });
    };
    EXPECT_EQ(with(9).grade, Grade::fair);
    EXPECT_THAT(codes(with(8)), ElementsAre("few-clods"));
    EXPECT_EQ(with(3).grade, Grade::show_only);
    EXPECT_THAT(codes(with(2)), ElementsAre("picture-only"));
    EXPECT_EQ(with(2).grade, Grade::not_comparable);
}

TEST(Fairness, SmallDifferencesAreShowOnly) {
    using namespace std::chrono;
    const std::vector<std::pair<std::string, std::function<void(Handling&)>>> cases = {
        {"dates-apart", [](Handling& h) { h.date = year{2026} / April / 12; }},
        {"water-differs", [](Handling& h) { h.water = "well water"; }},
        {"scorer-differs", [](Handling& h) { h.scorer = "second scorer"; }},
        {"spot-position", [](Handling& h) { h.position = SpotPosition::fencerow; }},
        {"spot-position", [](Handling& h) { h.position = SpotPosition::headland; }},
        {"spot-position", [](Handling& h) { h.position = SpotPosition::wheel_track; }},
    };
    for (const auto& [code, change] : cases) {
        const Fairness found = after_handling(change);
        EXPECT_EQ(found.grade, Grade::show_only) << code;
        ASSERT_THAT(codes(found), ElementsAre(code));
        EXPECT_FALSE(found.reasons[0].text.empty());
        EXPECT_FALSE(found.reasons[0].redo.empty());
    }
    EXPECT_EQ(after_handling([](Handling& h) { h.date = year{2026} / April / 11; }).grade, Grade::fair);
}

TEST(Fairness, EverythingUnrecordedIsOneSoftBreak) {
    const Record first = clods_of({{2, 1, 2}, {3, 2, 2}, {1, 2, 3}}),
                 second = clods_of({{5, 5, 5}, {5, 5, 5}, {5, 5, 5}});
    const Fairness found = fairness(first, site, second, site);
    EXPECT_EQ(found.grade, Grade::show_only);
    ASSERT_THAT(codes(found), ElementsAre("not-recorded"));
    for (const char* word : {"drying time", "date of sampling", "clod size", "sampling depth", "water", "scorer"})
        EXPECT_THAT(found.reasons[0].text, HasSubstr(word));
}

TEST(Fairness, ThreeSoftBreaksAreTooMany) {
    const auto two = [](Handling& h) {
        h.water = "well water";
        h.scorer = "second scorer";
    };
    EXPECT_EQ(after_handling(two).grade, Grade::show_only);
    const Fairness found = after_handling([&](Handling& h) {
        two(h);
        h.drying_days = 6.0;
    });
    EXPECT_EQ(found.grade, Grade::not_comparable);
    EXPECT_THAT(codes(found), ElementsAre("too-many-differences", "drying-differs", "water-differs", "scorer-differs"));
}

TEST(Fairness, HardReasonsComeFirstAndAllAreListed) {
    // Practitioner's story: dried 1 day against 5, and 20 mm against 8 mm; both are named.
    Record first = weak();
    first.handling.drying_days = 0.5;
    first.handling.clod_least_mm = first.handling.clod_most_mm = 20.0;
    first.handling.water = "well water";
    const Fairness found = fairness(first, site, strong(), site);
    EXPECT_THAT(codes(found), ElementsAre("moisture-differs", "clod-size-differs", "water-differs"));
}

TEST(Fairness, WithoutTestsOnlyTheGroundIsJudged) {
    EXPECT_EQ(fairness({}, site, {}, site).grade, Grade::fair);
    EXPECT_EQ(fairness({}, {"", "", 0.37, 0.06}, {}, {"", "", 0.37, 0.06}).grade, Grade::fair);
    EXPECT_EQ(fairness({}, {"", "", 0.37, 0.06}, {}, {"", "", 0.28, 0.06}).grade, Grade::not_comparable);
    EXPECT_EQ(fairness({}, {"", "", {}, 0.06}, {}, {"", "", {}, 0.06}).grade, Grade::show_only);
    EXPECT_THAT(codes(fairness({}, site, {}, {"SkC", "loam", 0.30, 0.12})), ElementsAre("slope-differs"));
}

TEST(Fairness, ATestOnOneSideIsNoComparison) {
    EXPECT_THAT(codes(fairness(weak(), site, {}, site)), ElementsAre("one-side-untested"));
    Record loose;
    loose.slump = {SlumpVerdict::holds};
    EXPECT_THAT(codes(fairness(weak(), site, loose, site)), ElementsAre("tests-differ"));
}

TEST(Fairness, LooseSoilIsJudgedByItsSoakMoistureAndDate) {
    // Common practice, no source: loose topsoil soaks 60 to 90 s.
    Record first, second;
    first.slump = {SlumpVerdict::slurry};
    second.slump = {SlumpVerdict::holds};
    EXPECT_THAT(codes(fairness(first, site, second, site)), ElementsAre("not-recorded"));
    using namespace std::chrono;
    first.handling.date = second.handling.date = year{2026} / April / 8;
    first.handling.slump_soak_s = 60.0;
    second.handling.slump_soak_s = 90.0;
    EXPECT_EQ(fairness(first, site, second, site).grade, Grade::fair) << "clod handling is not asked for";
    second.handling.slump_soak_s = 300.0;
    EXPECT_THAT(codes(fairness(first, site, second, site)), ElementsAre("soak-time-differs"));
    second.handling.slump_soak_s = 75.0;
    first.handling.days_since_rain = 1.0;
    second.handling.days_since_rain = 6.0;
    EXPECT_THAT(codes(fairness(first, site, second, site)), ElementsAre("rain-differs"));
    first.handling.days_since_rain = 6.0;
    first.handling.drying_days = 0.2;
    second.handling.drying_days = 3.0;
    EXPECT_THAT(codes(fairness(first, site, second, site)), ElementsAre("moisture-differs"));
    second.handling.drying_days = 0.1;
    EXPECT_EQ(fairness(first, site, second, site).grade, Grade::fair) << "loose soil is soaked moist";
}

TEST(Fairness, FloatingClodsAndCloudyWaterForbidATillageConclusion) {
    EXPECT_THAT(codes(after([](Record& record) {
                    for (Spot& spot : record.slake_spots)
                        for (Clod& clod : spot.clods) clod.floated = true;
                })),
                ElementsAre("repellent-clods"));
    EXPECT_THAT(codes(after([](Record& record) { record.cloudiness = Cloudiness::strong; })),
                ElementsAre("possible-dispersion"));
}

TEST(Fairness, TheOrderOfTheFieldsDoesNotChangeTheGrade) {
    Record second = strong();
    second.handling.drying_days = 0.5;
    second.handling.water = "well water";
    second.handling.scorer.clear();
    second.handling.days_since_tillage = 3.0;
    const Fairness there = fairness(weak(), site, second, site), back = fairness(second, site, weak(), site);
    EXPECT_EQ(there.grade, back.grade);
    EXPECT_EQ(codes(there), codes(back));
}

}  // namespace
}  // namespace soilhold::soiltest
