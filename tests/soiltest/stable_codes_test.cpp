/// Codes are promises to other programs: each one that the rooms can say stands in the page that explains it.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "source/reference_table.h"

namespace soilhold {
namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// Codes written in the sources of a room: {Weight::note, "code", ...} and breaks.hard("code", ...).
std::set<std::string> codes_of(const std::string& room) {
    const std::regex pattern(
        R"re((?:Weight::\w+,|breaks\.(?:hard|soft)\(|judge_same_words\([^"]*)\s*"([a-z]+(?:-[a-z]+)+)")re");
    std::set<std::string> codes;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(SOILHOLD_ROOT) + "/lib/" + room)) {
        if (entry.path().extension() != ".cpp") continue;
        const std::string text = text_of(entry.path());
        for (auto match = std::sregex_iterator(text.begin(), text.end(), pattern); match != std::sregex_iterator();
             ++match)
            codes.insert((*match)[1]);
    }
    return codes;
}

void expect_listed(const std::string& room, const std::string& page, std::size_t at_least) {
    const std::string text = text_of(std::string(SOILHOLD_ROOT) + "/docs/" + page);
    const std::set<std::string> codes = codes_of(room);
    EXPECT_GE(codes.size(), at_least) << "the pattern no longer finds the codes";
    for (const std::string& code : codes)
        EXPECT_NE(text.find(code), std::string::npos) << code << " is not in " << page;
}

TEST(StableCodes, OfSoakTestsStandInTheirPage) { expect_listed("soiltest", "soak-tests.md", 30); }

TEST(StableCodes, OfTheStructureFactorStandInItsPage) { expect_listed("structure", "structure-factor.md", 8); }

TEST(StableCodes, ThePageScoresClodsInTheWordsOfTheTable) {
    const std::string page = text_of(std::string(SOILHOLD_ROOT) + "/docs/soak-tests.md");
    for (const source::Row& row : source::table("slake-classes").rows) {
        const std::string words = row.text("words");
        // The page may shorten what follows the limits.
        EXPECT_NE(page.find("| " + row.text("class") + " | " + words.substr(0, 12)), std::string::npos) << words;
    }
}

}  // namespace
}  // namespace soilhold
