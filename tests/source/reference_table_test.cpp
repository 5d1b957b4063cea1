#include "source/reference_table.h"

#include <gmock/gmock.h>

#include <set>

#include "source/citation.h"

namespace soilhold::source {
namespace {

TEST(ReferenceTables, EachRowSaysWhereItComesFromAndHowWellThatWasSeen) {
    ASSERT_FALSE(embedded_tables().empty());
    for (const auto& [name, text] : embedded_tables()) {
        const Table& one = table(name);
        EXPECT_FALSE(one.rows.empty()) << name;
        for (const Row& row : one.rows) {
            EXPECT_FALSE(row.text("source").empty()) << name;
            EXPECT_NO_THROW(standing_from(row.text("standing"))) << name << ": " << row.text("standing");
        }
    }
}

TEST(Citations, HaveKeysOfTheirOwn) {
    std::set<std::string> keys;
    for (const Citation& record : all_citations()) EXPECT_TRUE(keys.insert(record.key).second) << record.key;
}

TEST(Citations, SayWhenOneIsMissing) { EXPECT_THROW(citation("no-such-key"), std::out_of_range); }

TEST(SplitCsv, HonoursQuotesAndEndsOfLine) {
    const auto lines = split_csv("a,b\r\n\"x, \"\"y\"\"\",2\n,\n");
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[1][0], "x, \"y\"");
    EXPECT_EQ(lines[1][1], "2");
    EXPECT_EQ(lines[2].size(), 2U);
}

}  // namespace
}  // namespace soilhold::source
