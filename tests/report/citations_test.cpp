#include "report/citations.h"

#include <gmock/gmock.h>

namespace soilhold::report {
namespace {

TEST(Citations, AreFoundByAllTheirWordsWhateverTheCase) {
    const CitationList found = find_citations({"NOMOGRAPH", "part 618"});
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].key, "nomograph");
    EXPECT_TRUE(find_citations({"nomograph", "no such word"}).empty());
    EXPECT_EQ(find_citations({}).size(), source::all_citations().size());
}

TEST(Citations, SayHowFarTheyWereSeen) {
    EXPECT_THAT(citations_text(find_citations({"default-spreads"})), testing::HasSubstr("[our assumption]"));
    EXPECT_THAT(citations_text(find_citations({"rain-annual"})), testing::HasSubstr("[from memory"));
}

}  // namespace
}  // namespace soilhold::report
