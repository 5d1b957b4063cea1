// C of a rotation, from the field file to the printed line and its working.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;

const std::string field_file = R"(field: Sheep Hill
rain: {erosivity: 160 US, from: rain sheet of Amblethorn Vale (invented)}
weather:
  temperature: [21 F, 26 F, 37 F, 50 F, 61 F, 70 F, 74 F, 72 F, 64 F, 52 F, 39 F, 26 F]
  rain: [0.9 in, 1.1 in, 2.1 in, 3.5 in, 4.5 in, 4.9 in, 4.3 in, 4.1 in, 3.1 in, 2.6 in, 2.0 in, 1.3 in]
  erosivity calendar: [1 %, 1 %, 3 %, 6 %, 14 %, 22 %, 20 %, 16 %, 9 %, 5 %, 2 %, 1 %]
  from: weather station (invented)
soil: {map unit: SkC, texture: loam, clay: 20 %, organic matter: 2.4 %, erodibility: 0.30 US, tolerance: 5 t/ac/yr}
slope: {length: 200 ft, steepness: 6 %}
cover:
  rotation:
    usual: corn-soybean, fall chisel
    crops: [{crop: corn, yield: 180 bu/ac, from: scale of the elevator (invented)}]
    from: the farmer
  residue reading: {day: year 1 May 20, cover: 22 %, from: line transect}
tests: {date: 2026-04-08, drying: 4 days, water-stable aggregates: [35 %, 42 %, 28 %]}
changes:
  - {change: no-till, rotation: no-till}
  - {change: plow, rotation: chisel instead of plow + fall, note: a mistake}
)";

struct RotationFile {
    Folder folder;
    std::string path = folder.path + "/field.yaml";
    explicit RotationFile(bool sound = true) {
        std::ofstream(path) << (sound ? field_file.substr(0, field_file.find("  - {change: plow")) : field_file);
    }
};

TEST(EstimateOfARotation, PrintsCWithItsSource) {
    const RotationFile file;
    const Outcome done = run({"estimate", file.path, "--json"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto field = nlohmann::json::parse(done.out)["fields"][0];
    const double now = field["factors"]["C"]["value"].get<double>();
    // Between what clean-tilled ground and what no-till with its residue have by the handbooks.
    EXPECT_GT(now, 0.03);
    EXPECT_LT(now, 0.4);
    EXPECT_LT(field["changes"][0]["factors"]["C"]["value"].get<double>(), now);
    EXPECT_THAT(field["factors"]["C"]["source"].dump(), HasSubstr("the farmer"));
    const Outcome text = run({"estimate", file.path});
    EXPECT_THAT(text.out, HasSubstr("calendar of cover"));
    EXPECT_THAT(text.out, HasSubstr("from memory"));
}

TEST(EstimateOfARotation, ExplainsTheYieldAndTheReading) {
    const RotationFile file;
    const Outcome done = run({"estimate", file.path, "--explain"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_THAT(done.out, HasSubstr("scale of the elevator (invented)"));
    // 180 bushels of 56 lb, 1.12085 kg/ha to the lb/ac.
    EXPECT_THAT(done.out, HasSubstr("= 11298 kg/ha (10080 lb/ac)"));
    // The twelve months sum to 34.4 in.
    EXPECT_THAT(done.out, HasSubstr("= 873.76 mm"));
    EXPECT_THAT(done.out, HasSubstr("weather station (invented)"));
    EXPECT_THAT(done.out, HasSubstr("line transect"));
}

TEST(EstimateOfARotation, EndsAtAChangeThatIsNotKnown) {
    const RotationFile file(false);
    const Outcome done = run({"estimate", file.path});
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_THAT(done.err, HasSubstr("[rotation-change]"));
    EXPECT_THAT(done.err, HasSubstr(":19:"));
}

}  // namespace
}  // namespace soilhold::program
