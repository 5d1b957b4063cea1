// What the program says of pairs that are not fair, and of what a pair shows, against golden files that were looked at:
// tests/abuse/pairs/NAME.yaml -> NAME.txt. SOILHOLD_WRITE_GOLDEN=1 writes them anew, to be looked at before a commit.
#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "program.h"

namespace soilhold {
namespace {

const std::filesystem::path folder = std::filesystem::path(SOILHOLD_ROOT) / "tests/abuse/pairs";

std::vector<std::string> names() {
    std::vector<std::string> list;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".yaml") list.push_back(entry.path().stem().string());
    std::sort(list.begin(), list.end());
    return list;
}

/// The answer and the table of losses: all before the factors.
std::string head_of(const std::string& text) { return text.substr(0, text.find("\nThe factors:")); }

class PairGolden : public testing::TestWithParam<std::string> {};

TEST_P(PairGolden, SaysWhatItSaid) {
    const program::Outcome done = program::run({"compare", (folder / (GetParam() + ".yaml")).string()});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const std::string said = head_of(done.out);
    const std::string golden = (folder / (GetParam() + ".txt")).string();
    if (std::getenv("SOILHOLD_WRITE_GOLDEN")) std::ofstream(golden) << said;
    EXPECT_EQ(said, program::slurp(golden));
}

INSTANTIATE_TEST_SUITE_P(Pairs, PairGolden, testing::ValuesIn(names()), [](const auto& info) {
    std::string name = info.param;
    for (char& c : name)
        if (c == '-') c = '_';
    return name;
});

TEST(PairGoldens, OnlyTheFairOnesHaveARatio) {
    for (const std::string& name : names()) {
        const std::string text = program::slurp((folder / (name + ".txt")).string());
        const bool ratio = text.find("as fast as") != std::string::npos || text.find("not sure") != std::string::npos;
        const bool refused = text.find("no comparison is drawn") != std::string::npos ||
                             text.find("no ratio is drawn") != std::string::npos;
        EXPECT_NE(ratio, refused) << name;
    }
}

}  // namespace
}  // namespace soilhold
