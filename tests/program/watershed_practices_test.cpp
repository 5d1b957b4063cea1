/// soilhold watershed with rotations and soil tests by field, held against an estimate of one field.
///
/// 20 x 20 cells of 10 m on a plane that falls 10 % southward; the longest slope is a cell: LS 0.77649 as worked by
/// hand in watershed_test.cpp. R = 3000, K 0.04: 93.179 C t/ha in the west.
#include <gmock/gmock.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold {
namespace {

using nlohmann::json;
using program::Outcome;
using testing::HasSubstr;

constexpr double bare = 3000 * 0.04 * 0.77649;

std::string box(const std::string& properties, double west, double north, double east, double south) {
    const auto point = [](double x, double y) {
        return "[" + std::to_string(500000 + x) + "," + std::to_string(4400000 - y) + "]";
    };
    return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":"Polygon","coordinates":[[)" +
           point(west, north) + "," + point(east, north) + "," + point(east, south) + "," + point(west, south) + "," +
           point(west, north) + "]]}}";
}

std::string features(const std::vector<std::string>& list) {
    std::string all;
    for (const std::string& one : list) all += (all.empty() ? "" : ",") + one;
    return R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32617"}},)"
           R"("features":[)" +
           all + "]}";
}

struct MadeBasin : program::Folder {
    MadeBasin() {
        std::string heights = "ncols 20\nnrows 20\nxllcorner 500000\nyllcorner 4399800\ncellsize 10\n";
        for (int row = 0; row < 20; ++row) {
            for (int column = 0; column < 20; ++column) heights += std::to_string(200 - row) + " ";
            heights += "\n";
        }
        write("heights.asc", heights);
        write("soils.csv",
              "key,share,erodibility SI,tolerance t/ha,clay,organic matter,texture\nA,70,0.04,10,18,2.6,silt loam\n"
              "A,30,0.01,5,30,1,clay\nB,100,0.02,8,20,2,loam\n");
        write("soils.json", features({box(R"("unit":"A")", 0, 0, 100, 200), box(R"("unit":"B")", 100, 0, 200, 200)}));
        write("fields.json", features({box(R"("name":"ploughed","turn":"plow")", 0, 0, 100, 100),
                                       box(R"("name":"tested","turn":"rested","tests":"weak.yaml")", 0, 100, 100, 200),
                                       box(R"("name":"by the map","turn":null)", 100, 0, 200, 100),
                                       box(R"("name":"listed")", 100, 100, 200, 200)}));
        write("weak.yaml", tests);
        write("basin.yaml", text);
    }
    void write(const std::string& name, const std::string& content) const {
        std::ofstream(path + "/" + name) << content;
    }
    void replace(const std::string& from, const std::string& to) const {
        std::string changed = text;
        changed.replace(changed.find(from), from.size(), to);
        write("basin.yaml", changed);
    }
    Outcome run(std::vector<std::string> more) const {
        more.insert(more.begin(), {"watershed", path + "/basin.yaml"});
        return program::run(more);
    }
    const std::string tests = "drying: 4 days\nposition: field\nslake:\n  spot 1: [2, 1, 2]\n  spot 2: [3, 2, 2]\n";
    const std::string weather =
        "weather: {temperature: {mean: 50 F, warmest above mean: 23 F}, rain: [58 mm, 49 mm, 61 mm, 66 mm, 82 mm, 94 "
        "mm, 101 mm, 96 mm, 83 mm, 71 mm, 68 mm, 60 mm]}\n";
    const std::string text =
        "watershed: Made Basin\n"
        "elevation: {file: heights.asc, crs: 'EPSG:32617', heights: m}\n"
        "rain: {erosivity: 3000 SI, from: county sheet}\n"
        "soils: {file: soils.json, key: unit, table: soils.csv}\n"
        "fields: {file: fields.json, name: name, rotation: turn, soil tests: tests}\n"
        "cover: {factor: 0.2, credits: tilled}\n" +
        weather +
        "rotations:\n"
        "  - {name: plow, rotation: 'corn-soybean, fall plow'}\n"
        "  - {name: rested, rotation: 'corn-soybean, no-till'}\n"
        "soil tests:\n"
        "  - {field: listed, file: weak.yaml, soil: B}\n"
        "offered:\n"
        "  - {practice: stop ploughing, rotation: rested}\n"
        "longest: 10 m\n"
        "visits: 2\n";
};

const json& named(const json& list, const std::string& name) {
    for (const json& one : list)
        if (one["name"] == name) return one;
    static const json none;
    return none;
}

/// C and m of the field as an estimate of it works them.
std::pair<double, double> estimated(const MadeBasin& made, const std::string& cover) {
    made.write("one.yaml",
               "field: one\nrain: {erosivity: 3000 SI}\n" + made.weather +
                   "soil: {texture: silt loam, clay: 18 %, organic matter: 2.6 %, erodibility: 0.04 SI, tolerance: 10 "
                   "t/ha}\nslope: {length: 10 m, steepness: 10 %}\ncover: " +
                   cover + "\ntests: weak.yaml\n");
    const Outcome outcome = program::run({"estimate", made.path + "/one.yaml", "--json"});
    EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
    const json factors = json::parse(outcome.out)["fields"][0]["factors"];
    return {factors["C"]["value"], factors["m"]["value"]};
}

TEST(WatershedPractices, RotationsAndTestsAreWorkedAsForOneField) {
    const MadeBasin made;
    const Outcome outcome = made.run({"--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const json result = json::parse(outcome.out);
    const json& fields = result["fields"];
    const auto [plow, none] = estimated(made, "{rotation: 'corn-soybean, fall plow'}");
    const auto [rested, m] = estimated(made, "{rotation: 'corn-soybean, no-till'}");
    EXPECT_NEAR(result["rotations"][0]["cover_factor"], plow, 1e-9);
    EXPECT_EQ(result["rotations"][0]["fields"], 1);
    EXPECT_NEAR(named(fields, "ploughed")["loss"], bare * plow, 0.002 * plow);
    EXPECT_NEAR(named(fields, "ploughed")["avoidable"], bare * (plow - rested), 0.003);
    EXPECT_EQ(named(fields, "ploughed")["best_practice"], "stop ploughing");
    const json& tested = named(fields, "tested");
    EXPECT_NEAR(tested["structure"]["m"], m, 1e-4);
    EXPECT_GT(m, 1.05);
    EXPECT_NEAR(tested["loss"], bare * rested * m, 0.002);
    EXPECT_NEAR(tested["structure"]["loss_without_tests"], bare * rested, 0.002);
    EXPECT_NEAR(tested["times_T"], bare * rested * m / 10, 0.001);
    EXPECT_EQ(tested["avoidable"], 0);
    EXPECT_NEAR(named(fields, "by the map")["loss"], bare / 2 * 0.2, 0.002);
    EXPECT_TRUE(named(fields, "by the map")["structure"].is_null());
    EXPECT_EQ(named(fields, "listed")["structure"]["soil"], "B");
    EXPECT_GT(named(fields, "listed")["structure"]["m"], 1);
    EXPECT_EQ(outcome.out, made.run({"--json", "--threads", "1"}).out);
}

TEST(WatershedPractices, TheTextShowsEachWithItsDoubt) {
    const MadeBasin made;
    const Outcome outcome = made.run({"--units", "metric"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    EXPECT_THAT(outcome.out, HasSubstr("\nRotations\n"));
    EXPECT_THAT(outcome.out, HasSubstr("\nSoil tests\n"));
    EXPECT_THAT(outcome.out, HasSubstr("without m"));
    EXPECT_THAT(outcome.out, HasSubstr("C of the rotation 'plow'"));
    EXPECT_THAT(outcome.out, HasSubstr("soil tests of 'tested' in weak.yaml"));
}

TEST(WatershedPractices, NamesThatLeadNowhereAreMistakes) {
    const MadeBasin made;
    made.replace("{name: rested", "{name: resting");
    EXPECT_THAT(made.run({}).err, HasSubstr("No rotation 'rested' is in the list 'rotations'"));
    made.replace("  - {practice: stop ploughing, rotation: rested}\n", "  - {practice: a, times: 0.5}\n");
    std::string wrong = program::slurp(made.path + "/basin.yaml");
    wrong.replace(wrong.find("{name: rested"), 13, "{name: resting");
    made.write("basin.yaml", wrong);
    Outcome outcome = made.run({});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err, HasSubstr("'tested' has 'rested' in its column 'turn', which is not in the list"));
    EXPECT_THAT(outcome.err, HasSubstr("plow, resting"));
    made.replace("{field: listed", "{field: listet");
    outcome = made.run({});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.err,
                HasSubstr("basin.yaml:12:13: No field 'listet' is in fields.json; did you mean 'listed'?"));
    made.replace("{field: listed", "{field: tested");
    EXPECT_THAT(made.run({}).err, HasSubstr("stand here and in its column 'tests'"));
    made.write("basin.yaml", made.text);
    made.write("fields.json", features({box(R"("name":"listed","turn":"plow","tests":"gone.yaml")", 0, 0, 100, 100)}));
    EXPECT_THAT(made.run({}).err, HasSubstr("'listed' names the soil tests 'gone.yaml' in its column 'tests'"));
}

TEST(WatershedPractices, ComponentsMayBeWeightedByShare) {
    const MadeBasin made;
    made.replace("table: soils.csv", "table: soils.csv, components: weighted");
    const Outcome outcome = made.run({"--json"});
    ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
    const json result = json::parse(outcome.out);
    // K of A: 0.7 x 0.04 + 0.3 x 0.01 = 0.031; T 0.7 x 10 + 0.3 x 5 = 8.5. B has one component.
    const json& ploughed = named(result["fields"], "ploughed");
    EXPECT_NEAR(ploughed["factors"]["K"], 0.031, 1e-6);
    EXPECT_NEAR(ploughed["tolerance"], 8.5, 1e-5);
    const double C = ploughed["factors"]["C"];
    EXPECT_NEAR(ploughed["loss"], 3000 * 0.031 * 0.77649 * C, 0.002);
    EXPECT_NEAR(named(result["fields"], "by the map")["factors"]["K"], 0.02, 1e-6);
}

TEST(WatershedPractices, JsonFitsItsSchema) {
    const MadeBasin made;
    const auto fits = program::fits_schema(made.run({"--json"}).out, "watershed-report.schema.json");
    if (!fits) GTEST_SKIP() << "python3 lacks jsonschema";
    EXPECT_TRUE(*fits);
}

}  // namespace
}  // namespace soilhold
