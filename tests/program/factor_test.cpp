// soilhold factor: what other programs rely on.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;

TEST(Factor, GivesValueUnitSourceAndStanding) {
    const Outcome done =
        run({"factor", "LS_ah703", "slope_pct=6", "length_ft=200", "rill_interrill=moderate", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    EXPECT_NEAR(json["value"].get<double>(), 1.05, 0.005);  // worked in the trade notes: 6 %, 200 ft
    EXPECT_EQ(json["unit"], "-");
    EXPECT_FALSE(json["source"].get<std::string>().empty());
    EXPECT_FALSE(json["standing"].get<std::string>().empty());
}

TEST(Factor, WorksATableAndSaysHowFarEachRowIsOff) {
    const std::string rows =
        "id,quantity,inputs,expected,unit,printed_precision\n"
        "a,LS_ah537,slope_pct=10;length_ft=400,2.74,-,0.01\n"  // AH 537 Table 3, from memory
        "b,LS_ah537,slope_pct=6;length_ft=200,0.8,-,0.001\n"
        "c,no_such_thing,x=1,1,-,1\n";
    const Outcome done = run({"factor", "--table", "-", "--json"}, rows);
    EXPECT_EQ(done.exit_code, 1);  // rows differ
    const auto json = nlohmann::json::parse(done.out);
    EXPECT_EQ(json["rows"][0]["agreement"], "reproduced");
    EXPECT_EQ(json["rows"][1]["agreement"], "differs");
    EXPECT_NEAR(json["rows"][1]["difference"].get<double>(), 0.1506, 0.0001);  // (200/72.6)^0.5 x 0.5727 - 0.8, by hand
    EXPECT_EQ(json["rows"][2]["agreement"], "refused");
    EXPECT_TRUE(json["rows"][2]["computed"].is_null());
}

TEST(Factor, ListsEveryQuantityOfTheHandbookRows) {
    const Outcome done = run({"factor", "--list"});
    EXPECT_EQ(done.exit_code, 0);
    for (const char* name : {"K_nomograph", "LS_ah703", "C_pasture_range", "P_contour", "T_by_depth", "SDR_distance"})
        EXPECT_THAT(done.out, HasSubstr(name));
}

TEST(Factor, RefusesInOneSentenceWhatItCannotWork) {
    for (const std::vector<std::string>& arguments : {std::vector<std::string>{"factor"},
                                                      {"factor", "LS_ah70"},
                                                      {"factor", "LS_ah703", "slope_pct=six"},
                                                      {"factor", "LS_ah703", "slope_pct"},
                                                      {"factor", "--table", "/no/such/file.csv"}}) {
        const Outcome done = run(arguments);
        EXPECT_EQ(done.exit_code, 2);
        EXPECT_TRUE(done.out.empty());
        EXPECT_FALSE(done.err.empty());
    }
}

TEST(Factor, SetsEveryMethodOfErodibilitySideBySide) {
    // AH 537 Fig. 3: silt and very fine sand 65 %, sand 5, organic matter 2.8, structure 2, permeability 4: K 0.31;
    // from memory, inputs read in a nomograph caption
    const Outcome done = run({"factor", "erodibility", "--all", "kf_us=0.32", "sand_pct=10", "vfs_pct=5", "silt_pct=60",
                              "clay_pct=30", "om_pct=2.8", "structure=2", "permeability=4", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    EXPECT_GE(json["methods"].size(), 8U);
    for (const auto& method : json["methods"]) {
        if (method["method"] == "nomograph") {
            EXPECT_NEAR(method["value_us"].get<double>(), 0.31, 0.005);
        }
        EXPECT_NE(method["value"].is_null(), !method.contains("why_not")) << method.dump();
    }
}

TEST(Factor, WithoutVeryFineSandBoundsTheNomograph) {
    const Outcome done = run({"factor", "erodibility", "--all", "sand_pct=40", "silt_pct=40", "clay_pct=20", "om_pct=2",
                              "structure=2", "permeability=3", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    for (const auto& method : json["methods"])
        if (method["method"] == "nomograph") {
            EXPECT_LT(method["bounds"]["low"], method["bounds"]["high"]);
        }
    EXPECT_EQ(run({"factor", "erodibility", "--all", "colour=red"}).exit_code, 2);
}

TEST(Cite, FindsASourceAndSaysHowItWasSeen) {
    const Outcome done = run({"cite", "nomograph", "equation", "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_EQ(nlohmann::json::parse(done.out)[0]["standing"], "read in the source");
    EXPECT_EQ(run({"cite", "no", "such", "source", "anywhere"}).exit_code, 1);
}

}  // namespace
}  // namespace soilhold::program
