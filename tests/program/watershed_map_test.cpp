#include <gmock/gmock.h>

#include <cstdlib>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

int make_demo(const std::string& folder) {
    return std::system(("'" SOILHOLD_MADE_WATERSHED "' '" + folder + "'").c_str());
}

TEST(WatershedMapFile, IsDrawnByItsEndingAndTheSameEachTime) {
    const Folder folder;
    ASSERT_EQ(make_demo(folder.path), 0);
    const std::string file = folder.path + "/watershed.yaml";
    setenv("SOURCE_DATE_EPOCH", "1776470400", 1);
    for (const auto& [ending, begins] : {std::pair{".pdf", "%PDF-"}, {".svg", "<svg"}, {".png", "\x89PNG"}}) {
        const std::string one = folder.path + "/one" + ending, two = folder.path + "/two" + ending;
        const Outcome first = run({"watershed", file, "--quiet", "--map", one});
        EXPECT_EQ(first.exit_code, 0) << first.err;
        EXPECT_THAT(first.out, HasSubstr("one" + std::string(ending)));
        EXPECT_EQ(run({"watershed", file, "--quiet", "--threads", "1", "--map", two}).exit_code, 0);
        EXPECT_THAT(slurp(one), StartsWith(begins));
        EXPECT_TRUE(slurp(one) == slurp(two)) << ending;
    }
    EXPECT_THAT(slurp(folder.path + "/one.svg"), HasSubstr("The top fifth of the fields carry"));
    unsetenv("SOURCE_DATE_EPOCH");
}

TEST(WatershedMapFile, AnotherEndingIsRefusedBeforeTheWork) {
    const Outcome refused = run({"watershed", "no-such.yaml", "--map", "map.doc"});
    EXPECT_EQ(refused.exit_code, 2);
    EXPECT_THAT(refused.err, HasSubstr(".pdf, .svg or .png"));
}

}  // namespace
}  // namespace soilhold::program
