// C from the published tables as a field file names them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <random>
#include <sstream>
#include <string>

#include "input/cover_tables_section.h"
#include "input/diagnostic.h"
#include "input/field_file.h"
#include "loss/inputs.h"

namespace soilhold::input {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// A field of 100 ft on 8 %; the cover stands in line 5, column 8.
std::string with_cover(const std::string& cover, const std::string& more = "", const std::string& soil = "") {
    return "field: Bench\n"
           "rain: {erosivity: 100 US}\n"
           "soil: {erodibility: 0.30 US" +
           soil +
           "}\n"
           "slope: {length: 100 ft, steepness: 8 %}\n"
           "cover: {" +
           cover + "}\n" + more;
}

loss::Field read_with(const std::string& cover, const std::string& more = "", const std::string& soil = "") {
    return read_fields(with_cover(cover, more, soil), "bench.yaml").at(0);
}

std::vector<std::string> codes_of(const std::string& yaml) {
    std::vector<std::string> codes;
    try {
        read_fields(yaml, "bench.yaml");
    } catch (const InputError& error) {
        for (const Diagnostic& found : error.diagnostics) codes.push_back(found.code);
    }
    return codes;
}

std::vector<std::string> refused(const std::string& cover) { return codes_of(with_cover(cover)); }

std::string text_of(const std::string& yaml) {
    try {
        read_fields(yaml, "bench.yaml");
    } catch (const InputError& error) {
        return error.diagnostics.at(0).text;
    }
    return "";
}

bool says(const loss::Field& field, const std::string& code, const std::string& place = "") {
    return std::any_of(field.remarks.begin(), field.remarks.end(), [&](const source::Remark& remark) {
        return remark.code == code && (place.empty() || remark.place == place);
    });
}

TEST(CoverTables, PastureTakesEachOfItsKeys) {
    const auto field = read_with(
        "pasture: {canopy: 25 %, fall height: 1.5 ft, ground: weeds, ground cover: 60 %, undisturbed: 10 years, "
        "print: earlier copy, from: walked in May}");
    const auto& pasture = std::get<factors::PastureCover>(*field.cover.table);
    EXPECT_DOUBLE_EQ(pasture.canopy_pct, 25);
    EXPECT_NEAR(pasture.fall_height_m, 0.4572, 1e-12);
    EXPECT_EQ(pasture.ground, factors::GroundCover::weeds);
    EXPECT_DOUBLE_EQ(pasture.ground_cover_pct, 60);
    EXPECT_FALSE(pasture.print_of_1978);
    EXPECT_NEAR(*pasture.years_undisturbed, 10, 1e-9);
    EXPECT_EQ(pasture.origin.from, "walked in May");
    EXPECT_FALSE(says(field, "pasture-line"));
    EXPECT_FALSE(says(field, "pasture-broken"));
    const auto plain = read_with("pasture: {ground: grass, ground cover: 60 %, print: 1978}");
    EXPECT_TRUE(std::get<factors::PastureCover>(*plain.cover.table).print_of_1978);
    EXPECT_EQ(std::get<factors::PastureCover>(*plain.cover.table).origin.from, "field file bench.yaml");
    EXPECT_TRUE(says(plain, "pasture-undisturbed", "bench.yaml:5:18"));
}

TEST(CoverTables, PastureSaysWhatItLacks) {
    EXPECT_THAT(refused("pasture: {ground cover: 60 %}"), ElementsAre("missing"));
    EXPECT_THAT(refused("pasture: {ground: grass}"), ElementsAre("missing"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60 %, canopy: 25 %}"), ElementsAre("missing"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60 %, fall height: 2 m}"), ElementsAre("missing"));
    EXPECT_THAT(refused("pasture: {ground: moss, ground cover: 60 %}"), ElementsAre("unknown-word"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60}"), ElementsAre("no-unit"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60 %, undisturbed: -1 years}"), ElementsAre("range"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60 %, duff: 3 %}"), ElementsAre("unknown-key"));
    EXPECT_THAT(refused("pasture: grass"), testing::Contains("not-a-section"));
}

TEST(CoverTables, PastureBeyondTheTableIsRefusedWithItsLines) {
    const std::string high = with_cover("pasture: {ground: grass, ground cover: 60 %, canopy: 95 %, fall height: 2 m}");
    EXPECT_THAT(codes_of(high), ElementsAre("cover-table"));
    EXPECT_THAT(text_of(high), HasSubstr("0, 25, 50 and 75 %"));
    EXPECT_THAT(refused("pasture: {ground: grass, ground cover: 60 %, canopy: 50 %, fall height: 8 m}"),
                ElementsAre("cover-table"));
}

TEST(CoverTables, BrokenPastureIsCautionedAndSoundPastureCreditsItself) {
    const std::string sound = "pasture: {ground: grass, ground cover: 60 %, undisturbed: 9 years}";
    EXPECT_EQ(read_with(sound).credited, structure::Credited::no_till);
    EXPECT_FALSE(says(read_with(sound), "pasture-broken"));
    EXPECT_TRUE(says(read_with(sound + ", credits: tilled"), "pasture-broken"));
    EXPECT_TRUE(says(read_with("pasture: {ground: grass, ground cover: 60 %, undisturbed: 1 year}"), "pasture-broken",
                     "bench.yaml:5:18"));
    const std::string tests = "tests: {date: 2026-04-08, drying: 4 days, slake: {spot 1: [2, 1, 2]}}\n";
    EXPECT_FALSE(says(read_with(sound, tests), "credits-unsaid"));
}

TEST(CoverTables, WoodlandTakesEachOfItsKeys) {
    const auto field =
        read_with("woodland: {canopy: 60 %, duff: 80 %, use: undisturbed, print: reprint, from: walked}");
    const auto& woodland = std::get<factors::WoodlandCover>(*field.cover.table);
    EXPECT_DOUBLE_EQ(woodland.canopy_pct, 60);
    EXPECT_DOUBLE_EQ(woodland.duff_pct, 80);
    EXPECT_TRUE(woodland.reprint);
    EXPECT_EQ(woodland.origin.from, "walked");
    EXPECT_EQ(field.credited, structure::Credited::no_till);
    EXPECT_FALSE(says(field, "woodland-undisturbed"));
    EXPECT_TRUE(says(read_with("woodland: {canopy: 60 %, duff: 80 %}"), "woodland-undisturbed"));
}

TEST(CoverTables, WoodlandThatIsUsedOrBetweenBandsIsRefused) {
    for (const char* use : {"grazed", "burnt", "logged", "no"})
        EXPECT_THAT(refused(std::string("woodland: {canopy: 60 %, duff: 80 %, use: ") + use + "}"),
                    ElementsAre("woodland-use"))
            << use;
    EXPECT_THAT(refused("woodland: {canopy: 95 %, duff: 50 %}"), ElementsAre("cover-table"));
    EXPECT_THAT(refused("woodland: {duff: 80 %}"), ElementsAre("missing"));
    EXPECT_THAT(refused("woodland: {canopy: 60 %}"), ElementsAre("missing"));
    EXPECT_THAT(refused("woodland: {canopy: 60 %, duff: 120 %}"), ElementsAre("range"));
}

TEST(CoverTables, MulchTakesItsRateInAnyUnit) {
    for (const char* rate : {"2 ton/ac", "2 tons/acre", "4000 lb/ac", "4.5 t/ha"}) {
        const auto field =
            read_with(std::string("mulch: {material: straw or hay tied, from: the plan, rate: ") + rate + "}");
        const auto& mulch = std::get<factors::MulchOnSlope>(*field.cover.table);
        EXPECT_NEAR(mulch.tons_per_acre, 2, 0.01) << rate;
        EXPECT_EQ(mulch.material, "straw or hay tied");
        EXPECT_EQ(mulch.origin.from, "the plan");
        EXPECT_EQ(field.credited, structure::Credited::tilled);
    }
}

TEST(CoverTables, MulchBeyondItsRowsIsRefused) {
    EXPECT_THAT(refused("mulch: {material: straw or hay tied, rate: 1.7 ton/ac}"), ElementsAre("cover-table"));
    EXPECT_THAT(refused("mulch: {material: confetti, rate: 2 ton/ac}"), ElementsAre("unknown-word"));
    EXPECT_THAT(refused("mulch: {material: crushed stone}"), ElementsAre("missing"));
    EXPECT_THAT(refused("mulch: {rate: 2 ton/ac}"), ElementsAre("missing"));
    EXPECT_THAT(refused("mulch: {material: wood chips, rate: 7}"), ElementsAre("no-unit"));
    // Wood chips at 7 tons hold to 75 ft below 16 % (Table 9, from memory); the field has 100 ft.
    const std::string chips = with_cover("mulch: {material: wood chips, rate: 7 ton/ac}");
    EXPECT_THAT(codes_of(chips), ElementsAre("cover-table"));
    EXPECT_THAT(text_of(chips), HasSubstr("75 ft (23 m)"));
    EXPECT_THAT(text_of(chips), HasSubstr("100 ft (30 m)"));
}

TEST(CoverTables, AShorterSlopeBringsMulchWithinItsLength) {
    const std::string chips = "    cover: {mulch: {material: wood chips, rate: 7 ton/ac}}\n";
    const auto with_change = [&](const std::string& more) {
        return with_cover("factor: 0.5", "changes:\n  - change: chips\n" + chips + more);
    };
    EXPECT_THAT(codes_of(with_change("")), ElementsAre("cover-table"));
    EXPECT_THAT(codes_of(with_change("    length: 70 ft\n")), ElementsAre());
    EXPECT_THAT(codes_of(with_change("    practice: {terraces: {interval: 60 ft, outlet: sod channel}}\n")),
                ElementsAre());
}

TEST(CoverTables, AChangeThatTakesTheTerracesAwayTakesTheMulchsCToo) {
    const std::string terraced =
        with_cover("mulch: {material: wood chips, rate: 7 ton/ac}",
                   "practice: {terraces: {interval: 60 ft, outlet: sod channel}}\nchanges:\n  - change: other\n");
    EXPECT_THAT(codes_of(terraced + "    practice: contouring\n"), ElementsAre("cover-table"));
    EXPECT_THAT(codes_of(terraced + "    cover: {factor: 0.1}\n    practice: contouring\n"), ElementsAre());
    EXPECT_THAT(codes_of(terraced + "    practice: contouring\n    length: 70 ft\n"), ElementsAre());
}

TEST(CoverTables, MulchOnLevelGroundHasNoRow) {
    std::string level = with_cover("mulch: {material: straw or hay tied, rate: 2 ton/ac}");
    level.replace(level.find("8 %"), 3, "0 %");
    EXPECT_THAT(codes_of(level), ElementsAre("cover-table"));
    EXPECT_THAT(text_of(level), HasSubstr("1 to 50 %"));
}

TEST(CoverTables, ASiteCoverIsALineOfItsList) {
    const auto field = read_with("site: {by: goldman, cover: Excelsior mat or jute, from: the plan}");
    const auto& site = std::get<factors::SiteCover>(*field.cover.table);
    EXPECT_EQ(site.by, "goldman");
    EXPECT_EQ(site.cover, "excelsior mat or jute");
    EXPECT_TRUE(says(field, "site-cover-limits", "bench.yaml:5:15"));
    EXPECT_THAT(refused("site: {by: goldman, cover: competent gravel layer}"), ElementsAre("unknown-word"));
    EXPECT_THAT(refused("site: {by: somebody, cover: hay 2.0 ton/acre}"), ElementsAre("unknown-word"));
    EXPECT_THAT(refused("site: {cover: hay 2.0 ton/acre}"), ElementsAre("missing"));
    EXPECT_THAT(refused("site: {by: goldman}"), ElementsAre("missing"));
}

TEST(CoverTables, StagesTakeARatioOrALine) {
    const auto field = read_with(
        "from: the plan, stages: [{stage: p3 96, line: 1, erosivity share: 30 %}, "
        "{stage: rye, ratio: 0.12, erosivity share: 70 %}]");
    const auto& staged = std::get<factors::StagedCover>(*field.cover.table);
    ASSERT_EQ(staged.stages.size(), 2U);
    EXPECT_EQ(staged.stages[0].stage, "P3_96");
    EXPECT_EQ(*staged.stages[0].line, 1);
    EXPECT_DOUBLE_EQ(staged.stages[0].erosivity_share, 0.3);
    EXPECT_EQ(staged.stages[1].stage, "rye");
    EXPECT_DOUBLE_EQ(*staged.stages[1].ratio, 0.12);
    EXPECT_EQ(staged.origin.from, "the plan");
    EXPECT_EQ(field.credited, structure::Credited::tilled);
}

TEST(CoverTables, StagesThatAreNoYearAreRefused) {
    const auto stages = [](const std::string& list) { return refused("stages: [" + list + "]"); };
    EXPECT_THAT(stages("{stage: F, line: 1, erosivity share: 93 %}"), ElementsAre("stages-sum"));
    EXPECT_THAT(stages("{stage: F, line: 1, erosivity share: 99.6 %}"), ElementsAre());
    EXPECT_THAT(stages("{stage: F, line: 1, ratio: 0.3, erosivity share: 100 %}"), ElementsAre("one-of"));
    EXPECT_THAT(stages("{stage: F, erosivity share: 100 %}"), ElementsAre("missing"));
    EXPECT_THAT(stages("{stage: F, line: 1}"), ElementsAre("missing"));
    EXPECT_THAT(stages("{line: 1, erosivity share: 100 %}"), testing::Contains("missing"));
    EXPECT_THAT(stages("{stage: F, line: 9, erosivity share: 100 %}"), ElementsAre("cover-table"));
    EXPECT_THAT(stages("{stage: F, line: 1.5, erosivity share: 100 %}"), ElementsAre("cover-table"));
    EXPECT_THAT(stages("{stage: P9, line: 1, erosivity share: 100 %}"), ElementsAre("cover-table"));
    EXPECT_THAT(stages("{stage: F, ratio: 31, erosivity share: 100 %}"), ElementsAre("range"));
    EXPECT_THAT(stages("{stage: F, ratio: 0, erosivity share: 100 %}"), ElementsAre("range"));
    EXPECT_THAT(stages(""), ElementsAre("not-a-list"));
    EXPECT_THAT(refused("stages: {stage: F}"), ElementsAre("not-a-list"));
    EXPECT_THAT(stages("F"), testing::Contains("not-a-section"));
}

TEST(CoverTables, OneCoverHasOneWay) {
    const std::string pasture = "pasture: {ground: grass, ground cover: 60 %}";
    EXPECT_THAT(refused("factor: 0.2, " + pasture), ElementsAre("one-of"));
    EXPECT_THAT(refused("parts: {surface cover: 30 %}, " + pasture), ElementsAre("one-of"));
    EXPECT_THAT(refused(pasture + ", woodland: {canopy: 60 %, duff: 80 %}"), ElementsAre("one-of"));
    EXPECT_THAT(refused("factor: 0.2, parts: {surface cover: 30 %}"), ElementsAre("one-of"));
    EXPECT_THAT(refused("credits: tilled"), ElementsAre("missing"));
}

TEST(CoverTables, StonesOfTheWholeSoilsErodibilityCountOnce) {
    const std::string rock = ", rock fragments: 30 %, rock in erodibility: ";
    for (const char* cover : {"pasture: {ground: grass, ground cover: 60 %}", "parts: {surface cover: 30 %}"}) {
        EXPECT_TRUE(says(read_with(cover, "", rock + "yes"), "stones-twice")) << cover;
        EXPECT_FALSE(says(read_with(cover, "", rock + "no"), "stones-twice")) << cover;
    }
    EXPECT_FALSE(says(read_with("factor: 0.2", "", rock + "yes"), "stones-twice"));
    EXPECT_FALSE(says(read_with("pasture: {ground: grass, ground cover: 0 %}", "", rock + "yes"), "stones-twice"));
}

TEST(CoverTables, DamagedFilesAreRefusedOrHaveAC) {
    std::ifstream file(std::string(SOILHOLD_ROOT) + "/tests/abuse/golden/97-cover-by-each-table.yaml");
    std::stringstream stream;
    stream << file.rdbuf();
    const std::string sound = stream.str();
    ASSERT_FALSE(sound.empty());
    const std::string digits = "0123456789", marks = digits + digits + ".- %{}[],:";
    std::mt19937 random(20260408);
    int refused_files = 0, read_files = 0;
    for (int round = 0; round < 800; ++round) {
        std::string damaged = sound;
        damaged[damaged.find_first_of(digits, random() % (damaged.size() / 2))] = marks[random() % marks.size()];
        damaged[damaged.find_first_of(digits, random() % (damaged.size() - 200))] = marks[random() % marks.size()];
        try {
            for (const loss::Field& field : read_fields(damaged, "damaged.yaml")) {
                const loss::FieldInputs inputs = loss::inputs_of(field);
                EXPECT_TRUE(inputs.now.C.central > 0 && inputs.now.C.central <= 1) << damaged;
                for (const loss::PracticeInputs& change : inputs.changes)
                    EXPECT_TRUE(change.C.central > 0 && change.C.central <= 1) << damaged;
            }
            ++read_files;
        } catch (const InputError&) {
            ++refused_files;
        }
    }
    EXPECT_GT(refused_files, 200);
    EXPECT_GT(read_files, 100);
}

}  // namespace
}  // namespace soilhold::input
