#include "report/columns.h"

#include <gmock/gmock.h>

#include <sstream>

namespace soilhold::report {
namespace {

TEST(Columns, BreakAtSpacesBeforeTheEightiethLetter) {
    std::string text;
    for (int i = 0; i < 60; ++i) text += "soil ";
    std::stringstream lines(wrapped(text, "* ", "  "));
    std::string line;
    int count = 0;
    while (std::getline(lines, line)) {
        EXPECT_LE(width_of(line), 80U);
        EXPECT_EQ(line.substr(0, 2), count == 0 ? "* " : "  ");
        ++count;
    }
    EXPECT_EQ(count, 4);
}

TEST(Columns, ALetterOfTwoBytesTakesOneColumn) { EXPECT_EQ(width_of("\xc3\xa9t\xc3\xa9"), 3U); }

TEST(Columns, OfATableLineUpToTheRight) {
    EXPECT_EQ(table({{"a", "1"}, {"long", "100"}}, ""), "a       1\nlong  100\n");
}

TEST(Columns, OfAWideTableAreCutToTheTerminal) {
    const std::string text = table({{std::string(90, 'x'), "12"}});
    EXPECT_LE(text.size(), 81U);
    EXPECT_THAT(text, testing::HasSubstr(".."));
    EXPECT_THAT(text, testing::HasSubstr("12"));
}

}  // namespace
}  // namespace soilhold::report
