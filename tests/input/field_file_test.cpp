#include "input/field_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "program.h"

namespace soilhold::input {
namespace {

using testing::HasSubstr;

std::string whole_field(const std::string& name, const std::string& more = "") {
    return "field: " + name +
           "\n"
           "rain: {erosivity: 100 US}\n"
           "soil: {map unit: SkC, texture: loam, clay: 20 %, organic matter: 2.4 %, erodibility: 0.30 US, "
           "tolerance: 5 t/ac/yr}\n"
           "slope: {length: 100 ft, steepness: 5 %}\n"
           "cover: {factor: 0.2, credits: reduced}\n" +
           more;
}

loss::Field one(const std::string& yaml) { return read_fields(yaml, "folder/bench.yaml").at(0); }

std::vector<Diagnostic> mistakes_of(const std::string& yaml) {
    try {
        read_fields(yaml, "bench.yaml");
    } catch (const InputError& error) {
        return error.diagnostics;
    }
    return {};
}

TEST(FieldFile, FiguresArriveInSiUnits) {
    const loss::Field field = one(whole_field("Bench", "area: 10 ac\n"));
    EXPECT_EQ(field.name, "Bench");
    // Foster et al. 1981 (from memory): R 17.02, K 0.1317, A 2.242; the foot is 0.3048 m and the acre 0.404686 ha.
    EXPECT_NEAR(field.rain.erosivity->value, 1702, 1);
    EXPECT_NEAR(field.soil.erodibility->value, 0.3 * 0.1317, 1e-5);
    EXPECT_NEAR(field.tolerance->value, 5 * 2.242, 0.005);
    EXPECT_NEAR(field.slope.length_m.value, 30.48, 1e-12);
    EXPECT_NEAR(field.slope.gradient.value, 0.05, 1e-15);
    EXPECT_NEAR(field.area_ha->value, 4.04686, 1e-5);
    EXPECT_DOUBLE_EQ(field.cover.factor->value, 0.2);
    EXPECT_EQ(field.credited, structure::Credited::reduced);
    EXPECT_DOUBLE_EQ(*field.soil.clay_pct, 20);
    EXPECT_DOUBLE_EQ(*field.soil.organic_matter_pct, 2.4);
}

TEST(FieldFile, AValueSaysWhoseFigureItIs) {
    const loss::Field field =
        one("field: Bench\n"
            "rain: {erosivity: {value: 100 US, from: the own note}, from: the section}\n"
            "soil: {erodibility: 0.3 US, from: the survey}\n"
            "slope: {length: 100 ft, steepness: 5 %}\n"
            "cover: {factor: 0.2}\n");
    EXPECT_EQ(field.rain.erosivity->origin.from, "the own note");
    EXPECT_EQ(field.soil.erodibility->origin.from, "the survey");
    EXPECT_EQ(field.slope.length_m.origin.from, "field file bench.yaml");
    EXPECT_EQ(field.slope.length_m.origin.standing, source::Standing::users_figure);
}

TEST(FieldFile, ASpreadIsARangeAShareOrAnAmount) {
    const loss::Field field =
        one("field: Bench\n"
            "rain: {erosivity: 100 US, spread: 90 to 120 US}\n"
            "soil: {erodibility: {value: 0.3 US, spread: 10 %}}\n"
            "slope: {length: {value: 100 ft, spread: 20 ft}, steepness: {value: 6 %, spread: 1 point}}\n"
            "cover: {factor: {value: 0.2, spread: 0.15 to 0.3}}\n");
    EXPECT_NEAR(field.rain.erosivity->range->low, 0.9 * field.rain.erosivity->value, 1e-9);
    EXPECT_NEAR(field.rain.erosivity->range->high, 1.2 * field.rain.erosivity->value, 1e-9);
    EXPECT_NEAR(field.soil.erodibility->range->high, 1.1 * field.soil.erodibility->value, 1e-12);
    EXPECT_NEAR(field.slope.length_m.range->low, 24.384, 1e-9);
    EXPECT_NEAR(field.slope.gradient.range->low, 0.05, 1e-12);
    EXPECT_NEAR(field.slope.gradient.range->high, 0.07, 1e-12);
    EXPECT_DOUBLE_EQ(field.cover.factor->range->low, 0.15);
    EXPECT_FALSE(one(whole_field("Bench")).slope.length_m.range);
}

TEST(FieldFile, AShareOfASteepnessIsReadWhenItSaysSo) {
    const std::string before =
        "field: B\nrain: {erosivity: 100 US}\nsoil: {erodibility: 0.3 US}\ncover: {factor: 0.2}\n";
    const loss::Field field =
        one(before + "slope: {length: 100 ft, steepness: {value: 6 %, spread: 10 % of the value}}\n");
    EXPECT_NEAR(field.slope.gradient.range->low, 0.054, 1e-12);
    const auto wrong = mistakes_of(before + "slope: {length: 100 ft, steepness: {value: 6 %, spread: 10 %}}\n");
    ASSERT_EQ(wrong.size(), 1U);
    EXPECT_EQ(wrong[0].code, "ambiguous-spread");
}

TEST(FieldFile, AllMistakesAreToldTogetherEachAtItsPlace) {
    const auto found = mistakes_of(
        "field: Bench\n"
        "rain: {erosivity: 100}\n"
        "soil: {erodibility: 0.3 US, colour: brown}\n"
        "slope: {length: 100 ac, steepness: 5 %}\n"
        "cover: {factor: 2}\n");
    ASSERT_EQ(found.size(), 4U);
    std::vector<std::pair<int, int>> places;
    for (const Diagnostic& one_found : found) places.emplace_back(one_found.place.line, one_found.place.column);
    EXPECT_THAT(places,
                testing::UnorderedElementsAre(std::pair(2, 19), std::pair(3, 29), std::pair(4, 17), std::pair(5, 17)));
}

TEST(FieldFile, PlaceServesEveryFieldThatLeavesAKeyOut) {
    const auto fields = read_fields(
        "farm: Amblethorn\n"
        "local office: the desk\n"
        "place:\n"
        "  rain: {erosivity: 100 US, from: the sheet}\n"
        "  soil: {map unit: SkB, erodibility: 0.3 US, from: the survey}\n"
        "  tests: {water: rain water, scorer: A}\n"
        "fields:\n"
        "  - field: One\n"
        "    soil: {erodibility: 0.2 US}\n"
        "    slope: {length: 100 ft, steepness: 5 %}\n"
        "    cover: {factor: 0.2}\n"
        "    tests: {scorer: B, slake: {spot 1: [2, 3]}}\n"
        "  - field: Two\n"
        "    rain: {annual: 900 mm}\n"
        "    slope: {length: 100 ft, steepness: 5 %}\n"
        "    cover: {factor: 0.2}\n",
        "farm.yaml");
    ASSERT_EQ(fields.size(), 2U);
    EXPECT_EQ(fields[0].farm, "Amblethorn");
    EXPECT_EQ(fields[1].local_office, "the desk");
    EXPECT_EQ(fields[0].map_unit, "SkB");
    EXPECT_EQ(fields[0].soil.erodibility->origin.from, "field file farm.yaml");
    EXPECT_EQ(fields[1].soil.erodibility->origin.from, "the survey");
    EXPECT_EQ(fields[0].tests.handling.water, "rain water");
    EXPECT_EQ(fields[0].tests.handling.scorer, "B");
    EXPECT_FALSE(fields[1].rain.erosivity);
    EXPECT_DOUBLE_EQ(fields[1].rain.annual_rain_mm->value, 900);
    EXPECT_TRUE(fields[1].tests.empty());
}

TEST(FieldFile, TestsAreReadClodByClod) {
    const loss::Field field = one(whole_field("Bench",
                                              "tests:\n"
                                              "  date: 2026-04-08\n"
                                              "  drying: 36 hours\n"
                                              "  clod size: 6 to 8 mm\n"
                                              "  depth: 0 to 2 in\n"
                                              "  blind: no\n"
                                              "  tilled: 3 weeks\n"
                                              "  position: wheel track\n"
                                              "  slake:\n"
                                              "    ridge: [2, {class: 6, floated: yes}]\n"
                                              "    foot: [{class: 5, stone: yes}]\n"
                                              "  slump: {soak: 1 min, verdicts: [slurry, Partial, holds]}\n"
                                              "  water-stable aggregates: [41 %, 38 %]\n"
                                              "  mean weight diameter: 0.5 mm\n"
                                              "  cloudiness: none\n"));
    const soiltest::Record& tests = field.tests;
    EXPECT_EQ(tests.handling.date, std::chrono::year{2026} / 4 / 8);
    EXPECT_DOUBLE_EQ(*tests.handling.drying_days, 1.5);
    EXPECT_DOUBLE_EQ(*tests.handling.clod_least_mm, 6);
    EXPECT_DOUBLE_EQ(*tests.handling.clod_most_mm, 8);
    EXPECT_DOUBLE_EQ(*tests.handling.depth_bottom_mm, 50.8);
    EXPECT_EQ(tests.handling.blind, false);
    EXPECT_DOUBLE_EQ(*tests.handling.days_since_tillage, 21);
    EXPECT_EQ(tests.handling.position, soiltest::SpotPosition::wheel_track);
    EXPECT_DOUBLE_EQ(*tests.handling.slump_soak_s, 60);
    ASSERT_EQ(tests.slake_spots.size(), 2U);
    EXPECT_EQ(tests.slake_spots[0].name, "ridge");
    EXPECT_EQ(tests.slake_spots[0].clods[0].slake_class, 2);
    EXPECT_TRUE(tests.slake_spots[0].clods[1].floated);
    EXPECT_TRUE(tests.slake_spots[1].clods[0].held_by_stone_or_root);
    EXPECT_EQ(tests.slump, (std::vector{soiltest::SlumpVerdict::slurry, soiltest::SlumpVerdict::partial,
                                        soiltest::SlumpVerdict::holds}));
    EXPECT_THAT(tests.water_stable_pct, testing::ElementsAre(testing::DoubleEq(41), testing::DoubleEq(38)));
    EXPECT_THAT(tests.mean_weight_diameter_mm, testing::ElementsAre(0.5));
    EXPECT_EQ(tests.cloudiness, soiltest::Cloudiness::none);
}

TEST(FieldFile, ATestFileStandsAloneAndItsMistakesNameIt) {
    const program::Folder own;
    const std::filesystem::path folder = own.path;
    std::ofstream(folder / "bench-tests.yaml") << "scorer: A\nslake: {spot 1: [2, 3]}\n";
    std::ofstream(folder / "wrong-tests.yaml") << "scorer: A\nslake: {spot 1: [2, 9]}\n";
    const std::string path = (folder / "bench.yaml").string();
    const auto fields = read_fields(whole_field("Bench", "tests: bench-tests.yaml\n"), path);
    EXPECT_EQ(fields[0].tests.slake_spots.at(0).clods.size(), 2U);
    try {
        read_fields(whole_field("Bench", "tests: wrong-tests.yaml\n"), path);
        FAIL() << "a class of 9 was read";
    } catch (const InputError& error) {
        ASSERT_EQ(error.diagnostics.size(), 1U);
        EXPECT_THAT(error.diagnostics[0].place.file, HasSubstr("wrong-tests.yaml"));
        EXPECT_EQ(error.diagnostics[0].place.line, 2);
        EXPECT_EQ(error.diagnostics[0].place.column, 21);
    }
}

TEST(FieldFile, ChangesHoldOnlyWhatTheyChange) {
    const loss::Field field = one(whole_field("Bench",
                                              "changes:\n"
                                              "  - change: Rye\n"
                                              "    cover: {factor: 0.05, credits: no-till}\n"
                                              "    note: One more pass.\n"
                                              "  - change: Terrace\n"
                                              "    length: 50 ft\n"
                                              "    practice: contouring\n"));
    ASSERT_EQ(field.changes.size(), 2U);
    EXPECT_DOUBLE_EQ(field.changes[0].cover->factor->value, 0.05);
    EXPECT_FALSE(field.changes[0].practice || field.changes[0].length_m);
    EXPECT_EQ(field.changes[0].note, "One more pass.");
    EXPECT_NEAR(field.changes[1].length_m->value, 15.24, 1e-12);
    EXPECT_TRUE(field.changes[1].practice->contouring);
    EXPECT_FALSE(field.changes[1].cover);
    EXPECT_EQ(field.credited, structure::Credited::reduced);
}

TEST(FieldFile, StructureAndPermeabilityTakeWordsCodesAndConductivity) {
    const auto soil = [](const std::string& structure, const std::string& permeability) {
        return one("field: B\nrain: {erosivity: 100 US}\nslope: {length: 100 ft, steepness: 5 %}\ncover: {factor: "
                   "0.2}\n"
                   "soil:\n  texture: {sand: 44 %, very fine sand: 12 %, silt: 36 %, clay: 20 %}\n"
                   "  organic matter: 2 %\n  structure: " +
                   structure + "\n  permeability: " + permeability + "\n")
            .soil;
    };
    EXPECT_EQ(soil("fine granular", "slow").structure_code, 2);
    EXPECT_EQ(soil("Blocky", "slow").structure_code, 4);
    EXPECT_EQ(soil("3", "slow").structure_code, 3);
    EXPECT_EQ(soil("3", "very slow").permeability_code, 6);
    EXPECT_EQ(soil("3", "moderate to rapid").permeability_code, 2);
    // check-values K-021 to K-026: limits of the National Soil Survey Handbook, read in a reprint.
    EXPECT_EQ(soil("3", "0.29 um/s").permeability_code, 6);
    EXPECT_EQ(soil("3", "0.3 um/s").permeability_code, 5);
    EXPECT_EQ(soil("3", "4.7 um/s").permeability_code, 4);
    EXPECT_EQ(soil("3", "12 um/s").permeability_code, 3);
    EXPECT_EQ(soil("3", "15 um/s").permeability_code, 2);
    EXPECT_EQ(soil("3", "60 mm/h").permeability_code, 2);
    EXPECT_EQ(soil("3", "31 um/s").permeability_code, 1);
    EXPECT_DOUBLE_EQ(*soil("3", "3").very_fine_sand_pct, 12);
}

TEST(FieldFile, OrganicCarbonBecomesOrganicMatterAndSaysSo) {
    const loss::Field field =
        one("field: B\nrain: {erosivity: 100 US}\nslope: {length: 100 ft, steepness: 5 %}\ncover: {factor: 0.2}\n"
            "soil: {erodibility: 0.3 US, organic carbon: 1 %}\n");
    EXPECT_NEAR(*field.soil.organic_matter_pct, 1.724, 1e-12);
    EXPECT_TRUE(std::any_of(field.remarks.begin(), field.remarks.end(), [](const source::Remark& remark) {
        return remark.code == "organic-carbon" && remark.place == "folder/bench.yaml:5:45";
    }));
}

TEST(FieldFile, TheStructureFactorCanBeTurnedOff) {
    EXPECT_TRUE(one(whole_field("B")).use_tests);
    EXPECT_FALSE(one(whole_field("B", "structure factor: off\n")).use_tests);
}

TEST(FieldFile, WordsStayTheTextThatWasWritten) {
    EXPECT_EQ(one(whole_field("NO")).name, "NO");
    EXPECT_EQ(one(whole_field("0012")).name, "0012");
    EXPECT_EQ(one(whole_field("\"~\"")).name, "~");
}

TEST(FieldFile, EveryDemoFileAndMeasuredFileIsRead) {
    int files = 0;
    for (const char* folder : {"/data/demo", "/tests/field/measured"})
        for (const auto& entry : std::filesystem::directory_iterator(std::string(SOILHOLD_ROOT) + folder)) {
            if (entry.path().extension() != ".yaml") continue;
            ++files;
            EXPECT_FALSE(read_field_file(entry.path().string()).empty()) << entry.path();
        }
    EXPECT_GE(files, 10);
}

TEST(FieldFile, TakesTByDepthFromTheSurveysHandbook) {
    // National Soil Survey Handbook 618.93, read: hard rock at 50 to 100 cm: 2 tons an acre.
    const loss::Field field =
        one("field: Bench\nrain: {erosivity: 100 US}\nslope: {length: 100 ft, steepness: 5 %}\n"
            "soil: {erodibility: 0.3 US, tolerance by depth: {layer: lithic, depth: 30 in}}\n"
            "cover: {factor: 0.2, credits: tilled}\n");
    EXPECT_NEAR(field.tolerance->value, 2 * units::t_ha_per_ton_acre, 1e-9);
    EXPECT_EQ(field.tolerance->origin.standing, source::Standing::read_in_source);
}

}  // namespace
}  // namespace soilhold::input
