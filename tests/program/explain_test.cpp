// --explain: the working behind each value, read as a technician with a calculator would.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;

const std::string root = SOILHOLD_ROOT;
const std::string demo = root + "/data/demo/";

std::string working_of(const std::string& text) {
    const auto start = text.find("\nHow each value came about\n");
    return start == std::string::npos ? "" : text.substr(start + 1);
}

/// Exit code of the script that computes each printed working anew.
int follow(const std::string& text, int least) {
    Folder folder;
    std::ofstream(folder.path + "/working", std::ios::binary) << text;
    const std::string script = "python3 " + root + "/tests/program/working_arithmetic.py ";
    return std::system((script + std::to_string(least) + " < " + folder.path + "/working").c_str());
}

// The files were read line by line and their arithmetic done again from the field files by a script of its own; a
// change in them is to be looked at in the same way.
void expect_golden(const std::string& field) {
    const Outcome done = run({"estimate", demo + field + ".yaml", "--explain"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_EQ(working_of(done.out), slurp(root + "/tests/program/golden/explain-" + field + ".txt"));
}

TEST(Explain, WorksOutTheFieldThatHasOnlyASurvey) { expect_golden("far-acre"); }

TEST(Explain, WorksOutTheFieldThatWasTested) { expect_golden("wether-fold"); }

TEST(Explain, IsArithmeticThatAReaderCanFollow) {
    for (const char* field : {"far-acre", "wether-fold", "lower-reach"})
        for (const char* form : {"--quiet", "--json"})
            EXPECT_EQ(follow(run({"estimate", demo + field + ".yaml", "--explain", form}).out, 40), 0) << field;
    EXPECT_EQ(follow(run({"compare", demo + "wether-fold.yaml", demo + "lower-reach.yaml", "--explain"}).out, 100), 0);
}

TEST(Explain, IsArithmeticByTheOtherMethodsToo) {
    const std::string file = root + "/tests/program/other-methods.yaml";
    for (const char* form : {"--quiet", "--json"})
        EXPECT_EQ(follow(run({"estimate", file, "--explain", form}).out, 150), 0) << form;
}

TEST(Explain, WithAFigureChangedIsFoundOutByTheReader) {
    std::string text = run({"estimate", demo + "far-acre.yaml", "--explain"}).out;
    const auto at = text.find("= 77.585 mm");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 11, "= 77.858 mm");
    EXPECT_NE(follow(text, 40), 0);
}

TEST(Explain, LeavesTheUsualTextAsItIsAndFollowsIt) {
    const std::string usual = run({"estimate", demo + "far-acre.yaml"}).out;
    const std::string explained = run({"estimate", demo + "far-acre.yaml", "--explain"}).out;
    ASSERT_GT(explained.size(), usual.size());
    EXPECT_EQ(explained.substr(0, usual.size()), usual);
    std::stringstream stream(explained);
    for (std::string line; std::getline(stream, line);) {
        EXPECT_LE(line.size(), 80U) << line;
        for (const char c : line) EXPECT_TRUE(c >= 32 && c < 127) << line;
    }
}

TEST(Explain, AddsStepsToTheJsonAndTakesNothingAway) {
    const std::vector<std::string> pair = {"compare", demo + "wether-fold.yaml", demo + "lower-reach.yaml", "--json"};
    auto with = pair;
    with.emplace_back("--explain");
    const Outcome done = run(with);
    ASSERT_EQ(done.exit_code, 0) << done.err;
    auto json = nlohmann::json::parse(done.out);
    for (auto& field : json["fields"]) {
        for (auto& factor : field["factors"]) {
            EXPECT_FALSE(factor["steps"].empty());
            factor.erase("steps");
        }
        EXPECT_FALSE(field["steps"].empty());
        field.erase("steps");
        for (auto& change : field["changes"]) {
            EXPECT_FALSE(change["steps"].empty());
            change.erase("steps");
            for (auto& factor : change["factors"]) factor.erase("steps");
        }
    }
    json["pairs"][0].erase("steps");
    json["pairs"][0]["structure"].erase("steps");
    EXPECT_EQ(json, nlohmann::json::parse(run(pair).out));
}

TEST(Explain, JsonFitsItsSchema) {
    Folder folder;
    for (const auto& arguments : std::vector<std::vector<std::string>>{
             {"compare", demo + "wether-fold.yaml", demo + "lower-reach.yaml", "--json", "--explain"},
             {"estimate", demo + "far-acre.yaml", "--json", "--explain"}}) {
        std::ofstream(folder.path + "/report.json") << run(arguments).out;
        const std::string check =
            "python3 -c \"import json,jsonschema,sys; jsonschema.validate(json.load(open(sys.argv[1])), "
            "json.load(open(sys.argv[2])))\" " +
            folder.path + "/report.json " + root + "/docs/report.schema.json";
        EXPECT_EQ(std::system(check.c_str()), 0) << arguments[0];
    }
}

TEST(Explain, HasNoRoomInATableForSpreadsheets) {
    const Outcome done = run({"estimate", demo + "far-acre.yaml", "--explain", "--csv"});
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_THAT(done.err, HasSubstr("--explain"));
}

}  // namespace
}  // namespace soilhold::program
