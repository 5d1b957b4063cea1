// The commands as a user and as another program would run them.
#include <gmock/gmock.h>
#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::Not;

const std::string demo = std::string(SOILHOLD_ROOT) + "/data/demo/";
const std::vector<std::string> fair_pair = {"compare", demo + "wether-fold.yaml", demo + "lower-reach.yaml"};

std::vector<std::string> with(std::vector<std::string> arguments, const std::vector<std::string>& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> result;
    std::stringstream stream(text);
    for (std::string line; std::getline(stream, line);) result.push_back(line);
    return result;
}

TEST(Compare, AnswersFirstAndFitsEightyPlainColumns) {
    const Outcome done = run(fair_pair);
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto text = lines(done.out);
    ASSERT_GT(text.size(), 10U);
    EXPECT_THAT(text[0] + text[1], HasSubstr("times")) << done.out;  // the ratio is the first thing said
    for (const std::string& line : text) {
        EXPECT_LE(line.size(), 80U) << line;
        for (const char c : line) EXPECT_TRUE(c >= 32 && c < 127) << line;
    }
    EXPECT_THAT(done.out, HasSubstr("local conservation office"));
}

TEST(Compare, GivesTheSameBytesEachTime) { EXPECT_EQ(run(fair_pair).out, run(fair_pair).out); }

TEST(Compare, OfTheHastyPairGivesNoRatioButReasons) {
    const Outcome done = run({"compare", demo + "hasty-pair.yaml", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    const auto& pair = json["pairs"][0];
    EXPECT_EQ(pair["fair"], "not comparable");
    EXPECT_TRUE(pair["ratio"].is_null());
    EXPECT_TRUE(pair["saved"].is_null());
    EXPECT_GE(pair["reasons"].size(), 2U);
    EXPECT_GE(pair["redo"].size(), 1U);
    const Outcome text = run({"compare", demo + "hasty-pair.yaml"});
    EXPECT_THAT(text.out, HasSubstr("no comparison"));
    EXPECT_THAT(text.out, Not(HasSubstr("times as")));
}

TEST(Compare, JsonIsWhatOtherProgramsRelyOn) {
    const Outcome done = run(with(fair_pair, {"--json"}));
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    EXPECT_EQ(json["format"], 1);
    EXPECT_EQ(json["interval"], "central 80 %");
    const auto& field = json["fields"][0];
    double product = 1;
    for (const char* symbol : {"R", "K", "m", "LS", "C", "P"}) {
        const auto& factor = field["factors"][symbol];
        product *= factor["value"].get<double>();
        EXPECT_LE(factor["low"], factor["value"]);
        EXPECT_GE(factor["high"], factor["value"]);
        EXPECT_FALSE(factor["source"].get<std::string>().empty()) << symbol;
    }
    EXPECT_NEAR(field["loss"]["central"].get<double>(), product, 1e-9 * product);
    EXPECT_EQ(field["loss"]["unit"], "t/(ha yr)");
    const auto& pair = json["pairs"][0];
    EXPECT_EQ(pair["from"], "Wether Fold");
    EXPECT_EQ(pair["to"], "Lower Reach");
    EXPECT_NEAR(pair["ratio"]["central"].get<double>(),
                json["fields"][1]["loss"]["central"].get<double>() / field["loss"]["central"].get<double>(), 1e-12);
    EXPECT_EQ(field["cautions"].size(), 5U);
}

TEST(Compare, JsonFitsItsSchema) {
    Folder folder;
    for (const auto& arguments : {with(fair_pair, {"--json"}),
                                  {"compare", demo + "hasty-pair.yaml", "--json"},
                                  {"estimate", demo + "far-acre.yaml", "--json"}}) {
        const Outcome done = run(arguments);
        ASSERT_EQ(done.exit_code, 0) << done.err;
        std::ofstream(folder.path + "/report.json") << done.out;
        const std::string check =
            "python3 -c \"import json,jsonschema,sys; jsonschema.validate(json.load(open(sys.argv[1])), "
            "json.load(open(sys.argv[2])))\" " +
            folder.path + "/report.json " SOILHOLD_ROOT "/docs/report.schema.json";
        EXPECT_EQ(std::system(check.c_str()), 0) << done.out;
    }
}

TEST(Compare, CsvHasAUnitASourceAndAStandingInEachRow) {
    const Outcome done = run(with(fair_pair, {"--csv"}));
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto text = lines(done.out);
    EXPECT_EQ(text[0], "record,field,other,quantity,central,low,high,unit,source,standing");
    EXPECT_GT(text.size(), 20U);
    for (const std::string& line : text) EXPECT_THAT(line, Not(HasSubstr(",,,")));
    EXPECT_THAT(done.out, HasSubstr("pair,Wether Fold,Lower Reach,ratio,"));
}

TEST(Compare, MetricAndUsAreTheSameLoss) {
    EXPECT_THAT(run(with(fair_pair, {"--units", "metric"})).out, HasSubstr("t/ha"));
    EXPECT_THAT(run(fair_pair).out, HasSubstr("t/ac"));
    EXPECT_EQ(run(with(fair_pair, {"--json", "--units", "metric"})).out, run(with(fair_pair, {"--json"})).out);
}

TEST(Compare, WritesThePageWholeOrNotAtAll) {
    Folder folder;
    const Outcome done = run(with(fair_pair, {"--out", folder.path + "/pair"}));
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_EQ(slurp(folder.path + "/pair.pdf").substr(0, 5), "%PDF-");
    EXPECT_THAT(slurp(folder.path + "/pair.html"), HasSubstr("</html>"));
    EXPECT_THAT(done.err, HasSubstr("pair.pdf"));
    const Outcome refused = run(with(fair_pair, {"--out", folder.path + "/no-such-folder/pair"}));
    EXPECT_EQ(refused.exit_code, 3);
    EXPECT_THAT(refused.err, HasSubstr("no-such-folder"));
}

TEST(Estimate, ReadsStandardInput) {
    const Outcome done = run({"estimate", "-", "--json"}, slurp(demo + "far-acre.yaml"));
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_EQ(nlohmann::json::parse(done.out)["fields"][0]["name"], "Far Acre");
}

TEST(Estimate, OfAFieldWithOnlyASurveySoilHasNoStructureFactor) {
    const Outcome done = run({"estimate", demo + "far-acre.yaml", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    EXPECT_EQ(json["fields"][0]["factors"]["m"]["value"], 1.0);
    EXPECT_EQ(json["fields"][0]["loss"]["central"], json["fields"][0]["loss_without_tests"]["central"]);
}

TEST(Estimate, ExitsWithOneWhenAFieldLosesMoreThanAskedFor) {
    EXPECT_EQ(run({"estimate", demo + "wether-fold.yaml", "--at-most", "T"}).exit_code, 1);
    EXPECT_EQ(run({"estimate", demo + "wether-fold.yaml", "--at-most", "100 t/ac/yr"}).exit_code, 0);
    EXPECT_EQ(run({"estimate", demo + "wether-fold.yaml", "--at-most", "5"}).exit_code, 2);
}

TEST(Program, SaysWhatIsWrongWithItsArgumentsAndExitsWithTwo) {
    for (const std::vector<std::string>& arguments : {std::vector<std::string>{},
                                                      {"estimate"},
                                                      {"dig"},
                                                      {"estimate", "x.yaml", "--units", "roman"},
                                                      {"estimate", demo + "far-acre.yaml", "--json", "--csv"}}) {
        const Outcome done = run(arguments);
        EXPECT_EQ(done.exit_code, 2);
        EXPECT_FALSE(done.err.empty());
        EXPECT_TRUE(done.out.empty());
    }
}

TEST(Program, CompareNeedsTwoFields) {
    const Outcome done = run({"compare", demo + "far-acre.yaml"});
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_THAT(done.err, HasSubstr("two"));
}

TEST(Program, HelpAndVersionAreNoErrors) {
    EXPECT_EQ(run({"--help"}).exit_code, 0);
    EXPECT_EQ(run({"estimate", "--help"}).exit_code, 0);
    EXPECT_THAT(run({"--version"}).out, HasSubstr("soilhold"));
}

TEST(Program, BadInputWritesNothing) {
    Folder folder;
    const Outcome done =
        run({"estimate", "-", "--out", folder.path + "/page"}, "field: A\nslope: {length: 200, steepness: 6 %}\n");
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_TRUE(done.out.empty());
    EXPECT_THAT(done.err, HasSubstr("standard input:2:"));
    EXPECT_THAT(done.err, HasSubstr("200 ft (61.0 m) or 200 m (656 ft)"));
    struct stat unused {};
    EXPECT_NE(stat((folder.path + "/page.pdf").c_str(), &unused), 0);
}

}  // namespace
}  // namespace soilhold::program
