/// Watershed files: what each key says, and what is refused with its place.
#include "input/watershed_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "input/diagnostic.h"
#include "input/watershed_keys.h"
#include "program.h"
#include "units/unit.h"

namespace soilhold::input {
namespace {

using testing::HasSubstr;

/// A folder with the files that the watershed file names; they are not opened here, but for the tables.
struct Beside : program::Folder {
    Beside() {
        for (const char* name :
             {"heights.tif", "r.tif", "p.tif", "c23.tif", "c24.tif", "soils.gpkg", "fields.gpkg", "roads.gpkg"})
            std::ofstream(path + "/" + name) << "";
        write("soils.csv",
              "key,share,erodibility US,tolerance (t/ac)\nA,60,0.32,5\nA,40,0.20,3\nB,100,0.28,\nW,100,,\n");
        write("classes.csv", "class,name,C\n1,maize,0.35\n5,soy,0.25\n176,grass,0.02\n");
    }
    void write(const std::string& name, const std::string& text) const { std::ofstream(path + "/" + name) << text; }
    WatershedFile read(const std::string& yaml) const { return read_watershed(yaml, path + "/basin.yaml"); }
    std::string refusal(const std::string& yaml) const {
        try {
            read(yaml);
        } catch (const InputError& error) {
            std::string all;
            for (const Diagnostic& one : error.diagnostics) all += render(one);
            return all;
        }
        return "read without a mistake";
    }
};

const std::string least =
    "watershed: Alder Run\n"
    "elevation: {file: heights.tif}\n"
    "rain: {erosivity: 175 US}\n"
    "soils: {file: soils.gpkg, key: unit, table: soils.csv}\n"
    "fields: {file: fields.gpkg}\n";

TEST(WatershedFile, EveryKeyIsRead) {
    const Beside beside;
    const WatershedFile file = beside.read(
        "watershed: Alder Run\n"
        "elevation: {file: heights.tif, band: 2, cell: 10 m, heights: ft, cells: m, crs: 'EPSG:32617', project: auto, "
        "nodata: -99, pits: breach, longest cut: 200 ft, deepest cut: 4 m, from: survey flight}\n"
        "rain: {raster: r.tif, unit: US, crs: 'EPSG:4326', from: county map}\n"
        "soils: {file: soils.gpkg, layer: units, key: unit, table: soils.csv, components: weighted, unit: US, "
        "tolerance: 4 t/ac}\n"
        "fields: {file: fields.gpkg, layer: fields, name: id, cover: c, practice: p, tillage: till, tolerance: t, "
        "tolerance unit: t/ac}\n"
        "cover: {rasters: [c23.tif, c24.tif], classes: classes.csv}\n"
        "practice: {raster: p.tif}\n"
        "offered:\n"
        "  - {practice: no-till, times: 0.4, from: the office}\n"
        "  - {practice: cover crop, cover factor: 0.08, practice factor: 0.5}\n"
        "barriers: [roads.gpkg]\n"
        "channel: 10 ac\n"
        "longest: 300 ft\n"
        "visits: 7\n"
        "rank by: avoidable\n"
        "delivery: boyce\n");
    EXPECT_EQ(file.name, "Alder Run");
    EXPECT_EQ(file.elevation.map.path, beside.path + "/heights.tif");
    EXPECT_EQ(file.elevation.band, 2);
    EXPECT_EQ(file.elevation.cell_m, 10.0);
    EXPECT_EQ(file.elevation.height_unit, "ft");
    EXPECT_EQ(file.elevation.cell_unit, "m");
    EXPECT_EQ(file.elevation.map.crs, "EPSG:32617");
    EXPECT_EQ(file.elevation.project, "auto");
    EXPECT_EQ(file.elevation.nodata, -99.0);
    EXPECT_TRUE(file.elevation.pits.breach);
    EXPECT_NEAR(*file.elevation.pits.longest_cut_m, 60.96, 1e-9);
    EXPECT_EQ(file.elevation.pits.deepest_cut_m, 4.0);
    EXPECT_EQ(file.elevation.map.origin.from, "survey flight");
    EXPECT_NEAR(file.rain.raster_unit, 17.02, 0.001);  // SI in a US unit of R: Foster et al. 1981, from memory
    EXPECT_EQ(file.rain.raster->crs, "EPSG:4326");
    EXPECT_EQ(file.rain.raster->origin.from, "county map");
    EXPECT_EQ(file.soils.map->layer, "units");
    EXPECT_EQ(file.soils.key, "unit");
    EXPECT_NEAR(file.soils.tolerance->value, 4 * 2.2417, 0.001);
    EXPECT_EQ(file.fields.map.layer, "fields");
    EXPECT_EQ(file.fields.name, "id");
    EXPECT_EQ(file.fields.cover, "c");
    EXPECT_EQ(file.fields.practice, "p");
    EXPECT_EQ(file.fields.tillage, "till");
    EXPECT_EQ(file.fields.tolerance, "t");
    EXPECT_NEAR(file.fields.tolerance_unit, 2.2417, 0.0001);
    ASSERT_EQ(file.cover.rasters.size(), 2U);
    EXPECT_EQ(file.cover.rasters[1].path, beside.path + "/c24.tif");
    EXPECT_EQ(file.cover.classes.at(5).name, "soy");
    EXPECT_EQ(file.cover.classes.at(5).C, 0.25);
    EXPECT_EQ(file.practice.raster->path, beside.path + "/p.tif");
    ASSERT_EQ(file.offered.size(), 2U);
    EXPECT_EQ(file.offered[0].times, 0.4);
    EXPECT_EQ(file.offered[0].origin.from, "the office");
    EXPECT_EQ(file.offered[1].cover_factor, 0.08);
    EXPECT_EQ(file.offered[1].practice_factor, 0.5);
    ASSERT_EQ(file.barriers.size(), 1U);
    EXPECT_NEAR(file.channel_ha, 4.047, 0.001);
    EXPECT_NEAR(file.longest_m, 91.44, 1e-9);
    EXPECT_EQ(file.visits, 7U);
    EXPECT_EQ(file.rank_by, RankBy::avoidable);
    EXPECT_EQ(file.delivery, DeliverBy::boyce);
}

TEST(WatershedFile, FieldEdgesAreBarriersInWords) {
    const Beside beside;
    const WatershedFile both =
        beside.read(least + "cover: {factor: 0.2}\nbarriers:\n  - Field edges\n  - roads.gpkg\n");
    EXPECT_TRUE(both.field_edges);
    ASSERT_EQ(both.barriers.size(), 1U);
    EXPECT_TRUE(beside.read(least + "cover: {factor: 0.2}\nbarriers: field edges\n").field_edges);
    EXPECT_FALSE(beside.read(least + "cover: {factor: 0.2}\nbarriers: roads.gpkg\n").field_edges);
    EXPECT_THAT(beside.refusal(least + "cover: {factor: 0.2}\nbarriers: [field edge]\n"),
                HasSubstr("or the words 'field edges'"));
}

TEST(WatershedFile, AMistakeInAMapIsToldAtTheLineThatNamesIt) {
    const Beside beside;
    const WatershedFile file = beside.read(least + "cover: {rasters: [c23.tif, c24.tif]}\nbarriers: [roads.gpkg]\n");
    const auto told = told_at_their_lines(file, {{{beside.path + "/heights.tif", 0, 0}, "no-crs", "it has none.", ""},
                                                 {{beside.path + "/c24.tif", 0, 0}, "not-here", "it lies away.", ""},
                                                 {{"elsewhere.tif", 0, 0}, "not-here", "it lies away.", ""}});
    EXPECT_EQ(told[0].place.line, 2);
    EXPECT_EQ(told[0].place.column, 1);
    EXPECT_EQ(told[0].source_line, "elevation: {file: heights.tif}");
    EXPECT_EQ(told[0].text, beside.path + "/heights.tif: it has none.");
    EXPECT_EQ(told[1].place.line, 6);
    EXPECT_EQ(told[1].place.column, 28);
    EXPECT_EQ(told[2].place.file, "elsewhere.tif");
}

TEST(WatershedFile, WhatIsLeftOutIsUsual) {
    const Beside beside;
    const WatershedFile file = beside.read(least + "cover: {factor: 0.2}\n");
    EXPECT_EQ(file.channel_ha, 2.0);
    EXPECT_NEAR(file.longest_m, 121.92, 1e-9);
    EXPECT_EQ(file.visits, 20U);
    EXPECT_EQ(file.rank_by, RankBy::tons);
    EXPECT_EQ(file.cover.factor->value, 0.2);
    EXPECT_FALSE(file.practice.factor);
    EXPECT_TRUE(file.offered.empty());
    EXPECT_FALSE(file.elevation.pits.breach);
}

TEST(WatershedFile, LimitsOfCutsAreHeldToWhatCanBe) {
    const Beside beside;
    const auto refusal = [&](const std::string& keys) {
        return beside.refusal("watershed: Alder Run\nelevation: {file: heights.tif, " + keys +
                              "}\nrain: {erosivity: 175 US}\n"
                              "soils: {file: soils.gpkg, key: unit, table: soils.csv}\nfields: {file: fields.gpkg}\n"
                              "cover: {factor: 0.2}\n");
    };
    EXPECT_THAT(refusal("longest cut: 60 m"), HasSubstr("basin.yaml:2:45: 'longest cut' holds for pits that are cut"));
    EXPECT_THAT(refusal("pits: breach, deepest cut: 101 m"), HasSubstr("up to 100 m; 3 m is usual"));
    EXPECT_THAT(refusal("pits: breach, longest cut: 0 m"), HasSubstr("up to 2000 m; 100 m is usual"));
    EXPECT_THAT(refusal("pits: dig"), HasSubstr("fill"));
}

TEST(WatershedFile, TheLargestComponentStandsForItsMapUnit) {
    const Beside beside;
    const SoilTable table = beside.read(least + "cover: {factor: 0.2}\n").soils.table;
    EXPECT_NEAR(table.units.at("A").K, 0.32 * units::erodibility_si_per_us, 1e-9);
    EXPECT_NEAR(*table.units.at("A").tolerance, 5 * units::t_ha_per_ton_acre, 1e-9);
    EXPECT_FALSE(table.units.at("B").tolerance);
    EXPECT_EQ(table.without_K, std::vector<std::string>{"W"});
}

TEST(WatershedFile, ComponentsMayBeWeighted) {
    const Beside beside;
    const SoilTable table = read_soil_table(beside.path + "/soils.csv", "", Components::weighted);
    // 0.6 x 0.32 + 0.4 x 0.20 = 0.272; 0.6 x 5 + 0.4 x 3 = 4.2
    EXPECT_NEAR(table.units.at("A").K, 0.272 * units::erodibility_si_per_us, 1e-9);
    EXPECT_NEAR(*table.units.at("A").tolerance, 4.2 * units::t_ha_per_ton_acre, 1e-9);
}

TEST(WatershedFile, MistakesOfTheTableHaveTheirLine) {
    const Beside beside;
    beside.write("soils.csv", "key,erodibility US\nA,0.32\nB,32\nC,high\n");
    const std::string said = beside.refusal(least + "cover: {factor: 0.2}\n");
    EXPECT_THAT(said, HasSubstr("soils.csv:3:1: K of 32 US can't be right"));
    EXPECT_THAT(said, HasSubstr("soils.csv:4:1:"));
    beside.write("soils.csv", "key,erodibility\nA,0.32\n");
    EXPECT_THAT(beside.refusal(least + "cover: {factor: 0.2}\n"), HasSubstr("has no unit"));
    beside.write("soils.csv", "unit,K\nA,0.32\n");
    EXPECT_THAT(beside.refusal(least + "cover: {factor: 0.2}\n"), HasSubstr("no column 'key'; it has: unit, K"));
}

TEST(WatershedFile, AllMistakesAreToldTogetherWithTheirPlace) {
    const Beside beside;
    const std::string said = beside.refusal(
        "watershed: Alder Run\n"
        "elevation: {file: hights.tif}\n"
        "rain: {raster: r.tif}\n"
        "soils: {file: soils.gpkg, key: unit}\n"
        "fields: {fil: fields.gpkg}\n"
        "cover: {factor: 20}\n"
        "practice: {factor: 1, raster: p.tif}\n"
        "offered:\n"
        "  - {practice: no-till}\n"
        "channel: 5\n"
        "longest: 2000 ft\n"
        "visits: 0\n");
    EXPECT_THAT(said, HasSubstr("basin.yaml:2:19: There is no file"));
    EXPECT_THAT(said, HasSubstr("needs its 'unit'"));
    EXPECT_THAT(said, HasSubstr("needs a 'table'"));
    EXPECT_THAT(said, HasSubstr("did you mean 'file'?"));
    EXPECT_THAT(said, HasSubstr("'factor' of 20 can't be right"));
    EXPECT_THAT(said, HasSubstr("only one of them"));
    EXPECT_THAT(said, HasSubstr("Say what it does"));
    EXPECT_THAT(said, HasSubstr("5 ac"));
    EXPECT_THAT(said, HasSubstr("up to 1000 ft"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:12:9: 'visits'"));
}

const std::string weather =
    "weather: {temperature: {mean: 50 F, warmest above mean: 23 F}, rain: [58 mm, 49 mm, 61 mm, 66 mm, 82 mm, 94 mm, "
    "101 mm, 96 mm, 83 mm, 71 mm, 68 mm, 60 mm]}\n";

TEST(WatershedFile, RotationsAreThoseOfAFieldFile) {
    const Beside beside;
    const WatershedFile file = beside.read(
        "watershed: Alder Run\nelevation: {file: heights.tif}\nrain: {erosivity: 175 US}\n"
        "soils: {file: soils.gpkg, key: unit, table: soils.csv}\n"
        "fields: {file: fields.gpkg, rotation: turn}\n" +
        weather +
        "rotations:\n"
        "  - {name: plow, rotation: 'corn-soybean, fall plow', from: the office}\n"
        "  - name: plow read\n"
        "    rotation: {usual: 'corn-soybean, fall plow'}\n"
        "    residue reading: {day: year 1 May 20, cover: 12 %}\n"
        "offered:\n  - {practice: till no more, rotation: plow read}\n");
    EXPECT_EQ(file.fields.rotation, "turn");
    ASSERT_EQ(file.rotations.size(), 2U);
    EXPECT_EQ(file.rotations[0].name, "plow");
    EXPECT_EQ(file.rotations[0].grown.rotation.years, 2);
    EXPECT_EQ(file.rotations[1].grown.reading->cover_pct, 12);
    EXPECT_EQ(file.offered[0].rotation, "plow read");
    EXPECT_NEAR(*file.weather.mean_temperature_C, 10, 1e-9);
    EXPECT_EQ(file.weather.month_rain_mm->at(6), 101);
}

TEST(WatershedFile, MistakesOfRotationsHaveTheirPlace) {
    const Beside beside;
    const std::string said = beside.refusal(least +  // five lines
                                            "cover: {factor: 0.2}\n"
                                            "rotations:\n"
                                            "  - {name: plow, rotation: 'corn-soybean, fall plough it'}\n"
                                            "  - {name: plow, rotatoin: 'corn-soybean, no-till'}\n"
                                            "offered:\n"
                                            "  - {practice: a, rotation: plows}\n"
                                            "  - {practice: b, rotation: plow, times: 0.4}\n");
    EXPECT_THAT(said, HasSubstr("basin.yaml:8:28:"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:9:18: 'rotatoin' is no key"));
    EXPECT_THAT(said, HasSubstr("A rotation 'plow' stands in the list already"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:11:29: No rotation 'plows'"));
    EXPECT_THAT(said, HasSubstr("Did you mean 'plow'?"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:12:5: Give the 'cover factor'"));
    const std::string dry = beside.refusal(least +
                                           "cover: {factor: 0.2}\nrotations:\n  - {name: plow, rotation: "
                                           "'corn-soybean, fall plow'}\n");
    EXPECT_THAT(dry, HasSubstr("basin.yaml:8:3: A rotation needs the temperature"));
    EXPECT_THAT(dry, HasSubstr("needs the rain of its place"));
}

TEST(WatershedFile, SoilTestsAreReadFromTheirFiles) {
    const Beside beside;
    beside.write("soils.csv",
                 "key,share,erodibility US,clay,organic matter (%),texture\nA,60,0.32,18,2.6,Silt loam\n"
                 "A,40,0.20,30,,clay\n");
    beside.write("north.yaml", "drying: 4 days\nslake:\n  spot 1: [2, 3, 2]\n  spot 2: [3, 2, 2]\n");
    const WatershedFile file = beside.read(least +
                                           "cover: {factor: 0.2, credits: reduced}\nsoil tests:\n"
                                           "  - {field: North, file: north.yaml, soil: A}\n");
    ASSERT_EQ(file.tests.size(), 1U);
    EXPECT_EQ(file.tests[0].field, "North");
    EXPECT_EQ(file.tests[0].soil, "A");
    EXPECT_EQ(file.tests[0].record.slake_spots.size(), 2U);
    EXPECT_EQ(file.tests[0].named_at.line, 8);
    EXPECT_EQ(file.cover.credits, structure::Credited::reduced);
    const SoilWords& words = file.soils.table.units.at("A").words;
    EXPECT_EQ(words.clay_pct, 18);
    EXPECT_EQ(words.organic_matter_pct, 2.6);
    EXPECT_EQ(words.texture, "silt loam");
    const SoilTable weighted = read_soil_table(beside.path + "/soils.csv", "", Components::weighted);
    EXPECT_NEAR(*weighted.units.at("A").words.clay_pct, 0.6 * 18 + 0.4 * 30, 1e-9);
    EXPECT_EQ(weighted.units.at("A").words.organic_matter_pct, 2.6);  // of those that have one
}

TEST(WatershedFile, WhatWeightedComponentsLackIsSaid) {
    const Beside beside;
    beside.write("soils.csv", "key,share,erodibility US\nA,60,0.3\nA,40,\nB,100,0.2\n");
    const SoilTable table = read_soil_table(beside.path + "/soils.csv", "", Components::weighted);
    ASSERT_EQ(table.remarks.size(), 1U);
    EXPECT_THAT(table.remarks[0].text, HasSubstr("Of map unit 'A' 60 % by share has"));
}

TEST(WatershedFile, MistakesOfSoilTestsHaveTheirPlace) {
    const Beside beside;
    beside.write("north.yaml", "drying: 4 days\nslake:\n  spot 1: [2, 9, 2]\n");
    const std::string said = beside.refusal(least +
                                            "cover: {factor: 0.2, credits: much}\nsoil tests:\n"
                                            "  - {field: North, file: north.yaml}\n"
                                            "  - {field: North, file: nort.yaml, soil: Q}\n"
                                            "  - {file: north.yaml}\n");
    EXPECT_THAT(said, HasSubstr("basin.yaml:6:31: "));
    EXPECT_THAT(said, HasSubstr("north.yaml:3:15: "));
    EXPECT_THAT(said, HasSubstr("basin.yaml:9:5: The tests of 'North' stand in the list already"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:9:26: 'nort.yaml'"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:9:43: The map unit 'Q' is not in soils.csv"));
    EXPECT_THAT(said, HasSubstr("basin.yaml:10:5: A soil test of the list has its 'field'"));
}

TEST(WatershedFile, WithoutAnyCoverItIsRefused) {
    const Beside beside;
    EXPECT_THAT(beside.refusal(least), HasSubstr("no cover factor C"));
    EXPECT_THAT(beside.refusal("field: x\n"), HasSubstr("no watershed file"));
}

TEST(WatershedFile, RankingByWhatCanBeAvoidedNeedsAnOffer) {
    const Beside beside;
    EXPECT_THAT(beside.refusal(least + "cover: {factor: 0.2}\nrank by: delivered\n"), HasSubstr("add 'offered'"));
}

TEST(WatershedFile, EachKeyStandsInTheGuide) {
    const std::string guide = program::slurp(std::string(SOILHOLD_ROOT) + "/docs/watershed.md");
    for (const KnownKey& known : watershed_keys()) {
        const std::string key(known.key);
        EXPECT_TRUE(guide.find("`" + key + "`") != std::string::npos) << key << " of " << known.section;
    }
}

}  // namespace
}  // namespace soilhold::input
