#include "report/text_block.h"

#include <gmock/gmock.h>

#include "report/columns.h"

namespace soilhold::report {
namespace {

using testing::ElementsAre;

/// Every letter is as wide as the size.
const Measure square = [](const std::string& words, double size, bool) {
    return size * static_cast<double>(width_of(words));
};
const TextStyle one_point{1.0};

TEST(TextBlock, BreaksAtSpaces) {
    EXPECT_THAT(broken("soil on the move", 8, one_point, square), ElementsAre("soil on", "the move"));
    EXPECT_TRUE(broken("  ", 8, one_point, square).empty());
}

TEST(TextBlock, BreaksAWordTooWideBetweenLettersNotBytes) {
    EXPECT_THAT(broken("\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9", 3, one_point, square),
                ElementsAre("\xc3\xa9\xc3\xa9\xc3\xa9", "\xc3\xa9"));
}

TEST(TextBlock, SaysThatMoreWasToCome) {
    EXPECT_THAT(broken("one two three four", 8, one_point, square, 1), ElementsAre("one two\xe2\x80\xa6"));
}

TEST(TextBlock, ShortensANameWithinSoThatItsEndStays) {
    const std::string name = "The long forty below the old lane, north half";
    const std::string cut = shortened_within(name, 30);
    EXPECT_LE(width_of(cut), 33U);
    EXPECT_EQ(cut.substr(0, 8), "The long");
    EXPECT_EQ(cut.substr(cut.size() - 10), "north half");
    EXPECT_EQ(shortened_within("Short", 30), "Short");
}

}  // namespace
}  // namespace soilhold::report
