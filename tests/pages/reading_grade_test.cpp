// How hard the page is to read, by the grade of Kincaid et al. 1975 (from memory):
// 0.39 words/sentence + 11.8 syllables/word - 15.59. Names of fields and the line of sources are left out.
#include <gmock/gmock.h>

#include <cctype>

#include "pages/handout.h"
#include "report/page_content.h"

namespace soilhold::pages {
namespace {

int syllables(const std::string& word) {
    int count = 0;
    bool in_vowel = false;
    std::string letters;
    for (const char c : word)
        if (std::isalpha(static_cast<unsigned char>(c)))
            letters += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    for (const char c : letters) {
        const bool vowel = std::string("aeiouy").find(c) != std::string::npos;
        if (vowel && !in_vowel) ++count;
        in_vowel = vowel;
    }
    const bool ends_in_silent_e = letters.size() > 2 && letters.back() == 'e' && letters[letters.size() - 2] != 'l';
    if (ends_in_silent_e && count > 1) --count;
    return std::max(1, count);
}

struct Count {
    int sentences = 0, words = 0, syllables = 0;
    void add(const std::string& text) {
        std::istringstream stream(text);
        std::string word;
        while (stream >> word) {
            ++words;
            syllables += pages::syllables(word);
            if (std::string(".!?").find(word.back()) != std::string::npos) ++sentences;
        }
    }
    double grade() const { return 0.39 * words / sentences + 11.8 * syllables / words - 15.59; }
};

double grade_of(const report::PageContent& content) {
    Count count;
    count.add(content.headline);
    for (const report::PagePart& part : content.parts)
        for (const auto* texts : {&part.before, &part.list, &part.after, &part.remarks})
            for (const std::string& text : *texts) count.add(text);
    for (const std::string& caution : content.cautions) count.add(caution);
    return count.grade();
}

TEST(ReadingGrade, IsCountedAsInAWorkedSentence) {
    Count count;
    count.add("The cat sat on the mat.");  // 6 words, 6 syllables, 1 sentence: -1.45, worked by hand
    EXPECT_NEAR(count.grade(), -1.45, 0.01);
    EXPECT_EQ(syllables("conservation"), 4);
    EXPECT_EQ(syllables("average"), 3);
    EXPECT_EQ(syllables("like"), 1);
}

TEST(ReadingGrade, OfEveryPageIsAtMostSeven) {
    const report::PageFacts facts{units::System::us, "2026-04-18", "0.1.0"};
    const auto pair = fair(), hasty = unfair(), one = bare();
    EXPECT_LE(grade_of(report::content_of(pair, pair.pairs[0], facts, {})), 7.0);
    EXPECT_LE(grade_of(report::content_of(hasty, hasty.pairs[0], facts, {})), 7.0);
    EXPECT_LE(grade_of(report::content_of(pair, 0, facts, {})), 7.0);
    EXPECT_LE(grade_of(report::content_of(one, 0, facts, {})), 7.0);
}

}  // namespace
}  // namespace soilhold::pages
