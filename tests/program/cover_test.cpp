// soilhold cover as a user and as another program would run it.
#include <gmock/gmock.h>
#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

/// An invented field of an invented place, farmed in three ways.
const std::string farmed = R"(field: Trap Close
soil: {map unit: SkC, texture: loam, clay: 20 %, organic matter: 2.4 %, erodibility: 0.30 US, tolerance: 4 t/ac/yr}
slope: {length: 200 ft, steepness: 6 %}
rain: {erosivity: 140 US}
weather:
  temperature: [21 F, 26 F, 37 F, 50 F, 61 F, 70 F, 74 F, 72 F, 64 F, 52 F, 39 F, 26 F]
  rain: [0.9 in, 1.1 in, 2.1 in, 3.5 in, 4.5 in, 4.9 in, 4.3 in, 4.1 in, 3.1 in, 2.6 in, 2.0 in, 1.3 in]
  from: station of Amblethorn (invented)
cover: {rotation: "corn-soybean, fall chisel", from: the farmer}
changes:
  - {change: no-till, rotation: no-till}
  - {change: plow, rotation: "corn-soybean, fall plow"}
)";

bool exists(const std::string& path) {
    struct stat seen {};
    return stat(path.c_str(), &seen) == 0;
}

TEST(CoverCommand, SaysWhenTheSoilIsLostAndAgreesWithTheEstimate) {
    const Outcome text = run({"cover", "-"}, farmed);
    ASSERT_EQ(text.exit_code, 0) << text.err;
    EXPECT_THAT(text.out, StartsWith("Of Trap Close's soil loss, "));
    EXPECT_THAT(text.out, HasSubstr("station of Amblethorn (invented) [your figure]"));
    const auto cover = nlohmann::json::parse(run({"cover", "-", "--json"}, farmed).out);
    const auto estimate = nlohmann::json::parse(run({"estimate", "-", "--json"}, farmed).out);
    const auto& ways = cover["fields"][0]["ways"];
    ASSERT_EQ(ways.size(), 3U);
    const std::string said = estimate.dump();
    for (const auto& way : ways)
        EXPECT_THAT(said, HasSubstr(way["loss"]["central"].dump())) << "the loss is that of 'estimate'";
}

TEST(CoverCommand, JsonFitsItsSchema) {
    const auto fits = program::fits_schema(run({"cover", "-", "--json"}, farmed).out, "cover-report.schema.json");
    if (!fits) GTEST_SKIP() << "python3 lacks jsonschema";
    EXPECT_TRUE(*fits);
}

TEST(CoverCommand, WritesThePageInTheFormAskedFor) {
    for (const auto& [name, files] : std::vector<std::pair<std::string, std::vector<std::string>>>{
             {"year", {"year.pdf", "year.html"}}, {"year.svg", {"year.svg"}}, {"year.png", {"year.png"}}}) {
        Folder folder;
        const Outcome done = run({"cover", "-", "--out", folder.path + "/" + name, "--csv"}, farmed);
        ASSERT_EQ(done.exit_code, 0) << done.err;
        for (const std::string& file : files) {
            EXPECT_TRUE(exists(folder.path + "/" + file)) << file;
            EXPECT_THAT(done.err, HasSubstr("wrote " + folder.path + "/" + file));
        }
        EXPECT_THAT(done.out, StartsWith("field,way,year,half_month"));
    }
}

TEST(CoverCommand, WritesNothingWhereItCannotWriteAll) {
    const Outcome done = run({"cover", "-", "--out", "/nowhere/at/all/year"}, farmed);
    EXPECT_EQ(done.exit_code, 3);
    EXPECT_EQ(done.out, "");
    EXPECT_THAT(done.err, HasSubstr("/nowhere/at/all"));
}

TEST(CoverCommand, NamesThePagesOfSeveralFields) {
    Folder folder;
    std::ofstream(folder.path + "/a.yaml") << farmed;
    const Outcome done = run({"cover", folder.path + "/a.yaml", folder.path + "/a.yaml",
                              SOILHOLD_ROOT "/data/demo/wether-fold.yaml", "--out", folder.path + "/year.svg"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_TRUE(exists(folder.path + "/year-trap-close.svg"));
    EXPECT_TRUE(exists(folder.path + "/year-trap-close-2.svg"));
    EXPECT_THAT(done.err, HasSubstr("Wether Fold has no rotation and is left out"));
    const Outcome quiet = run({"cover", folder.path + "/a.yaml", "--quiet", "--out", folder.path + "/quiet.svg"});
    EXPECT_EQ(quiet.err, "");
}

TEST(CoverCommand, TellsAFileWithoutARotationHowToGiveOne) {
    Folder folder;
    const Outcome done =
        run({"cover", SOILHOLD_ROOT "/data/demo/wether-fold.yaml", "--out", folder.path + "/year.pdf"});
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_EQ(done.out, "");
    EXPECT_THAT(done.err, HasSubstr("[no-rotation]"));
    EXPECT_THAT(done.err, HasSubstr("rotation: corn-soybean, fall chisel"));
    EXPECT_FALSE(exists(folder.path + "/year.pdf"));
    EXPECT_EQ(run({"cover"}).exit_code, 2);
    EXPECT_EQ(run({"cover", "/nowhere/at.all"}).exit_code, 2);
}

}  // namespace
}  // namespace soilhold::program
