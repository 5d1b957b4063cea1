#include "input/yaml_document.h"

#include <gtest/gtest.h>

namespace soilhold::input {
namespace {

const Entry& entry(const Node& node, std::size_t i) { return node.entries.at(i); }

TEST(YamlDocument, EveryPieceKnowsItsLineAndColumn) {
    const Document document("a: 1\nb:\n  - x\n  - {c: y}\n", "t.yaml");
    const Node& root = document.root();
    EXPECT_EQ(entry(root, 0).value.at.line, 1);
    EXPECT_EQ(entry(root, 0).value.at.column, 4);
    EXPECT_EQ(entry(root, 1).at.line, 2);
    const Node& list = entry(root, 1).value;
    EXPECT_EQ(list.items.at(0).at.line, 3);
    EXPECT_EQ(list.items.at(0).at.column, 5);
    EXPECT_EQ(entry(list.items.at(1), 0).value.at.column, 9);
}

TEST(YamlDocument, ColumnsCountLettersNotBytes) {
    const Document document("{ä: é, b: c}\n", "t.yaml");
    EXPECT_EQ(entry(document.root(), 1).value.at.column, 11);
}

TEST(YamlDocument, WindowsLineEndsAndByteOrderMarkChangeNoPlace) {
    const Document document(
        "\xEF\xBB\xBF"
        "a: 1\r\nb: 2\r\n",
        "t.yaml");
    EXPECT_EQ(entry(document.root(), 1).value.at.line, 2);
    EXPECT_EQ(entry(document.root(), 1).value.at.column, 4);
    EXPECT_EQ(entry(document.root(), 1).value.text, "2");
    EXPECT_EQ(document.source_line(2), "b: 2");
}

TEST(YamlDocument, DuplicateKeysAreMistakesAtTheSecond) {
    const Document document("a: 1\nb: 2\na: 3\n", "t.yaml");
    ASSERT_EQ(document.mistakes().size(), 1U);
    EXPECT_EQ(document.mistakes()[0].code, "twice");
    EXPECT_EQ(document.mistakes()[0].place.line, 3);
}

TEST(YamlDocument, BlankIsNotTheSameAsAnEmptyText) {
    const Document document("a:\nb: ''\nc: ~\nd: '~'\n", "t.yaml");
    EXPECT_TRUE(entry(document.root(), 0).value.blank());
    EXPECT_FALSE(entry(document.root(), 1).value.blank());
    EXPECT_TRUE(entry(document.root(), 2).value.blank());
    EXPECT_FALSE(entry(document.root(), 3).value.blank());
    EXPECT_EQ(entry(document.root(), 0).value.at.line, 1);
}

TEST(YamlDocument, AMistakeKeepsItsSentenceOnOneLine) {
    Document document("a: 1\n", "t.yaml");
    document.mistake({1, 4}, "test", "one\ntwo\x1b[31m");
    EXPECT_EQ(document.mistakes().at(0).text, "one two [31m");
}

TEST(Diagnostic, TheCaretStandsUnderTheColumn) {
    const std::string shown = render({{"t.yaml", 12, 4}, "test", "Wrong", "ä\té1"});
    EXPECT_EQ(shown, "t.yaml:12:4: Wrong [test]\n   12 | ä\té1\n      |  \t ^\n");
}

TEST(Diagnostic, WithoutALineOnlyTheFileIsNamed) {
    EXPECT_EQ(render({{"t.yaml", 0, 0}, "no-file", "There is no such file", ""}),
              "t.yaml: There is no such file [no-file]\n");
}

}  // namespace
}  // namespace soilhold::input
