#include "report/words.h"

#include <gmock/gmock.h>

namespace soilhold::report {
namespace {

using testing::HasSubstr;

TEST(Words, SayARatioAsAPersonWould) {
    EXPECT_EQ(times_in_words(1.05), "about the same");
    EXPECT_EQ(times_in_words(1.5), "about one and a half times");
    EXPECT_EQ(times_in_words(2.0), "about twice");
    EXPECT_EQ(times_in_words(4.2), "about four times");
    EXPECT_EQ(times_in_words(23.4), "about 23 times");
}

TEST(Words, NameTheFieldThatLosesMoreFirstWhateverTheOrder) {
    const spread::Interval quarter{0.25, 0.18, 0.36}, four{4, 1 / 0.36, 1 / 0.18};
    const std::string sentence = "Soil leaves Hill about four times as fast as Dale (likely 2.8 to 5.6 times).";
    EXPECT_EQ(ratio_sentence(quarter, "Hill", "Dale"), sentence);
    EXPECT_EQ(ratio_sentence(four, "Dale", "Hill"), sentence);
}

TEST(Words, AdmitWhenTheOrderIsNotSure) {
    EXPECT_THAT(ratio_sentence({0.7, 0.4, 1.2}, "Hill", "Dale"), HasSubstr("not sure"));
    EXPECT_THAT(ratio_sentence({1.0, 0.8, 1.25}, "Hill", "Dale"), HasSubstr("about as much soil as"));
}

TEST(Words, DoNotPretendToFiguresBelowOneTon) {
    EXPECT_EQ(loss_in_words(0.5, units::System::us), "less than 1 t/ac");
    EXPECT_EQ(loss_in_words(21.8 * units::t_ha_per_ton_acre, units::System::us), "about 22 t/ac");
    EXPECT_EQ(loss_in_words(21.8, units::System::metric), "about 22 t/ha");
}

TEST(Words, CountTotalsInTheTonsOfTheSystem) {
    // 40 acres at 21.8 tons are about 870 US tons; worked in the trade notes
    EXPECT_THAT(total_in_words({872 * 0.90718474, 600, 1200}, units::System::us), HasSubstr("about 870 US tons"));
    EXPECT_THAT(total_in_words({791, 600, 1200}, units::System::metric), HasSubstr("about 790 tonnes"));
}

}  // namespace
}  // namespace soilhold::report
