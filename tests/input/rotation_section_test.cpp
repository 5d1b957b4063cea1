// Rotations, their weather and their changes as a field file tells them.
#include "input/rotation_section.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>

#include "input/diagnostic.h"
#include "input/field_file.h"
#include "input/rotation_dates.h"
#include "loss/inputs.h"
#include "rotation/short_forms.h"

namespace soilhold::input {
namespace {

using rotation::Day;
using testing::ElementsAre;
using testing::HasSubstr;

const std::string weather =
    "weather: {temperature: [-6 C, -4 C, 2 C, 10 C, 16 C, 21 C, 23 C, 22 C, 18 C, 11 C, 4 C, -4 C], "
    "rain: [23 mm, 28 mm, 53 mm, 90 mm, 115 mm, 125 mm, 110 mm, 105 mm, 80 mm, 65 mm, 50 mm, 32 mm], "
    "from: school (invented)}\n";

/// A field whose cover stands in line 6, whatever the weather.
std::string with(const std::string& cover, const std::string& more = "", const std::string& place = weather) {
    return "field: Bench\nrain: {erosivity: 160 US}\nsoil: {erodibility: 0.30 US}\n"
           "slope: {length: 200 ft, steepness: 6 %}\n" +
           place + "cover:\n" + cover + "\n" + more;
}

loss::Field read(const std::string& yaml) { return read_fields(yaml, "bench.yaml").at(0); }

std::vector<std::string> refused(const std::string& yaml) {
    std::vector<std::string> found;
    try {
        read_fields(yaml, "bench.yaml");
    } catch (const InputError& error) {
        for (const Diagnostic& one : error.diagnostics) found.push_back(one.code);
    }
    return found;
}

std::string message_of(const std::string& yaml) {
    try {
        read_fields(yaml, "bench.yaml");
    } catch (const InputError& error) {
        return error.diagnostics.at(0).text;
    }
    return "";
}

const std::string two_years =
    "  rotation:\n"
    "    years: 2\n"
    "    crops:\n"
    "      - {crop: corn, planted: year 1 May 1, harvested: year 1 October 10, yield: 180 bu/ac, from: elevator}\n"
    "      - {crop: Soybean, planted: 12 May year 2, harvested: \"Oct. 3rd, year 2\"}\n"
    "    operations:\n"
    "      - {tool: planter, day: year 1 May 1}\n"
    "      - {tool: chisel plow, day: year 2 November 5, leaves: {value: 55 %, from: tape}, roughness: 2 in}\n"
    "    residue removed: [{day: year 1 October 15, share: 30 %}]\n"
    "    residue added: [{day: year 2 April 2, residue: manure, mass: 4 ton/ac}]\n"
    "    grazing: [{begins: year 2 November 10, ends: year 1 January 20, takes: 20 %}]\n"
    "    residue effectiveness: 0.045\n"
    "    from: the farmer\n"
    "  residue reading: {day: year 1 May 20, cover: 32 %, from: line transect}";

TEST(RotationInAFile, IsReadAtLengthWithItsOwners) {
    const loss::Field field = read(with(two_years));
    ASSERT_TRUE(field.rotation);
    const rotation::Rotation& told = field.rotation->rotation;
    EXPECT_EQ(told.years, 2);
    ASSERT_EQ(told.crops.size(), 2U);
    EXPECT_EQ(told.crops[0].planted, (Day{1, 121}));
    EXPECT_EQ(told.crops[1].crop, "soybean");
    EXPECT_EQ(told.crops[1].planted, (Day{2, 132}));
    EXPECT_EQ(told.crops[1].ended, (Day{2, 276}));
    // A bushel of corn weighs 56 lb: 180 x 56 = 10080 lb/ac, and 1 lb/ac is 1.12085 kg/ha.
    EXPECT_NEAR(told.crops[0].yield->value, 11298.2, 0.5);
    EXPECT_EQ(told.crops[0].yield->origin.from, "elevator");
    EXPECT_EQ(told.crops[1].origin.from, "the farmer");
    ASSERT_EQ(told.operations.size(), 2U);
    EXPECT_DOUBLE_EQ(told.operations[1].left->value, 0.55);
    EXPECT_EQ(told.operations[1].left->origin.from, "tape");
    EXPECT_NEAR(told.operations[1].roughness->value, 50.8, 1e-9);
    EXPECT_EQ(told.operations[1].roughness->origin.from, "the farmer");
    EXPECT_DOUBLE_EQ(told.removed.at(0).share.value, 0.3);
    EXPECT_NEAR(told.added.at(0).mass.value, 8966.8, 0.5);  // 4 short tons an acre
    EXPECT_EQ(told.grazing.at(0).to, (Day{1, 20}));
    EXPECT_DOUBLE_EQ(told.residue_effectiveness_b, 0.045);
    EXPECT_EQ(told.origin.from, "the farmer");
    ASSERT_TRUE(field.rotation->reading);
    EXPECT_EQ(field.rotation->reading->on, (Day{1, 140}));
    EXPECT_DOUBLE_EQ(field.rotation->reading->cover_pct, 32);
    EXPECT_EQ(field.rotation->reading->origin.from, "line transect");
    EXPECT_FALSE(field.cover.factor || field.cover.parts || field.cover.table);
}

TEST(RotationInAFile, TakesTheYieldInTheUnitsOfTheTrade) {
    const auto yield = [](const std::string& written) {
        return read(with("  rotation: {crops: [{crop: soybean, planted: May 12, harvested: October 3, yield: " +
                         written + "}]}"))
            .rotation->rotation.crops[0]
            .yield->value;
    };
    EXPECT_NEAR(yield("50 bu/ac"), 50 * 60 * 1.120851, 0.5);  // a bushel of soybeans weighs 60 lb
    EXPECT_NEAR(yield("{value: 50 bushels per acre, from: scale}"), 50 * 60 * 1.120851, 0.5);
    EXPECT_DOUBLE_EQ(yield("3 t/ha"), 3000);
    EXPECT_NEAR(yield("1.5 ton/ac"), 3362.6, 0.1);
}

TEST(RotationInAFile, InAFewWordsKeepsTheUsualDaysAndWhoTellsIt) {
    const loss::Field field = read(with("  rotation: Corn-soybean, fall chisel\n  from: the farmer"));
    const rotation::Rotation same = rotation::rotation_of_words("corn-soybean, fall chisel");
    EXPECT_EQ(field.rotation->rotation.operations.size(), same.operations.size());
    EXPECT_EQ(field.rotation->rotation.crops[0].planted, same.crops[0].planted);
    EXPECT_THAT(field.rotation->rotation.origin.from, HasSubstr("the farmer"));
    EXPECT_THAT(field.rotation->rotation.origin.from, HasSubstr("usual dates"));
}

TEST(RotationInAFile, BeginsFromTheUsualAndMovesTheWorkWithTheCrop) {
    const rotation::Rotation usual = rotation::rotation_of_words("corn-soybean, fall chisel");
    const loss::Field field =
        read(with("  rotation:\n    usual: corn-soybean, fall chisel\n    crops: [{crop: corn, planted: year 1 May 14, "
                  "harvested: year 1 October 30, yield: 9 t/ha}]"));
    const rotation::Rotation& told = field.rotation->rotation;
    ASSERT_EQ(told.crops.size(), 2U);
    EXPECT_EQ(told.crops[0].planted, (Day{1, 134}));
    EXPECT_DOUBLE_EQ(told.crops[0].yield->value, 9000);
    EXPECT_EQ(told.crops[1].planted, usual.crops[1].planted);
    const int by = 134 - usual.crops[0].planted->day;
    ASSERT_EQ(told.operations.size(), usual.operations.size());
    for (std::size_t i = 0; i < told.operations.size(); ++i) {
        const rotation::OperationDone &now = told.operations[i], &before = usual.operations[i];
        EXPECT_EQ(now.operation, before.operation);
        if (before.operation == "harvest" && before.on == usual.crops[0].ended)
            EXPECT_EQ(now.on, (Day{1, 303}));
        else if (before.on.year == 1 && before.on.day < 200)
            EXPECT_EQ(now.on.day, before.on.day + by) << now.operation;
        else
            EXPECT_EQ(now.on, before.on) << now.operation;
    }
}

TEST(RotationInAFile, ReplacesTheUsualPassesByTheFarmers) {
    const loss::Field field =
        read(with("  rotation: {usual: \"continuous corn, fall plow\", operations: [{tool: "
                  "no-till planter, day: April 30}]}"));
    ASSERT_EQ(field.rotation->rotation.operations.size(), 1U);
    EXPECT_EQ(field.rotation->rotation.operations[0].operation, "no-till planter");
}

TEST(RotationInAFile, ComesToTheCThatWasWorkedByHand) {
    // docs/cover-calendar.md, "By hand": 0.0893 with one look at the middle of each half-month; steps of five days see
    // it a little otherwise.
    std::string shares, temperatures, rains;
    for (int i = 0; i < 24; ++i) {
        shares += i == 11 ? "70 %, " : i == 19 ? "30 %, " : "0 %, ";
        temperatures += "20 C, ";
        rains += "33.02 mm, ";
    }
    const std::string place = "weather: {temperature: [" + temperatures.substr(0, temperatures.size() - 2) +
                              "], rain: [" + rains.substr(0, rains.size() - 2) + "], erosivity calendar: [" +
                              shares.substr(0, shares.size() - 2) + "]}\n";
    std::string yaml = with(
        "  rotation:\n    crops: [{crop: corn, planted: May 1, harvested: October 1, residue: 6000 kg/ha, "
        "roots: 1000 kg/ha}]\n    operations: [{tool: chisel plow, day: April 16}, {tool: planter, day: May 1}]",
        "", place);
    yaml.replace(yaml.find("160 US"), 6, "100 US");
    EXPECT_NEAR(loss::inputs_of(read(yaml)).now.C.central, 0.0893, 0.0018);
}

TEST(Weather, OfMonthsAndItsOwner) {
    const loss::Field field = read(with(two_years));
    EXPECT_DOUBLE_EQ(field.weather.month_temperature_C->at(3), 10);
    EXPECT_DOUBLE_EQ(field.weather.month_rain_mm->at(11), 32);
    EXPECT_EQ(field.weather.temperature_origin.from, "school (invented)");
    EXPECT_EQ(field.weather.rain_origin.from, "school (invented)");
}

TEST(Weather, ADifferenceInFahrenheitHasNoZeroOfItsOwn) {
    const loss::Field field = read(with("  rotation: \"continuous corn, no-till\"", "",
                                        "weather: {temperature: {mean: 50 F, warmest above mean: 23 F}, rain: [2 in, 2 "
                                        "in, 3 in, 3 in, 4 in, 4 in, 4 in, 4 in, 3 in, 3 in, 2 in, 2 in]}\n"));
    EXPECT_NEAR(*field.weather.mean_temperature_C, 10, 1e-9);
    EXPECT_NEAR(*field.weather.temperature_amplitude_C, 12.7778, 1e-4);
}

TEST(Weather, TakesTheRainOfTheMonthsThatRIsWorkedFrom) {
    std::string yaml = with("  rotation: \"continuous corn, no-till\"", "",
                            "weather: {temperature: {mean: 50 F, warmest above mean: 23 F}}\n");
    yaml.replace(yaml.find("{erosivity: 160 US}"), 19,
                 "{monthly: [2 in, 2 in, 3 in, 3 in, 4 in, 4 in, 4 in, 4 in, 3 in, 3 in, 2 in, 2 in], from: gauge}");
    const loss::Field field = read(yaml);
    EXPECT_NEAR(field.weather.month_rain_mm->at(2), 76.2, 1e-9);
    EXPECT_EQ(field.weather.rain_origin.from, "gauge");
}

TEST(Weather, OfThePlaceServesEachFieldAndIsNotNeededWithoutARotation) {
    const std::string farm =
        "place:\n  rain: {erosivity: 160 US}\n  soil: {erodibility: 0.3 US}\n  slope: {length: 200 ft, steepness: 6 "
        "%}\n  " +
        weather +
        "fields:\n  - {field: A, cover: {rotation: \"continuous corn, no-till\"}}\n  - {field: B, cover: {factor: "
        "0.2}}\n";
    const auto fields = read_fields(farm, "farm.yaml");
    EXPECT_TRUE(fields.at(0).weather.month_temperature_C);
    EXPECT_LT(loss::inputs_of(fields[0]).now.C.central, 0.2);
    EXPECT_DOUBLE_EQ(loss::inputs_of(fields[1]).now.C.central, 0.2);
    EXPECT_THAT(refused(with("  rotation: \"continuous corn, no-till\"", "", "")),
                ElementsAre("weather-missing", "weather-missing"));
}

TEST(RotationDays, AreReadWithTheirMonthAsAWord) {
    const auto day = [](const std::string& written) {
        return read(with("  rotation: {years: 3, operations: [{tool: planter, day: \"" + written + "\"}]}"))
            .rotation->rotation.operations[0]
            .on;
    };
    EXPECT_EQ(day("year 2 October 5"), (Day{2, 278}));
    EXPECT_EQ(day("5 oct year 2"), (Day{2, 278}));
    EXPECT_EQ(day("the 5th of October in year 2"), (Day{2, 278}));
    EXPECT_EQ(day("Sept. 1, year 3"), (Day{3, 244}));
    EXPECT_EQ(day("year 1 February 29"), (Day{1, 59}));
    EXPECT_EQ(day("year 1 December 31"), (Day{1, 365}));
    EXPECT_EQ(words_of(Day{2, 278}), "year 2 October 5");
    EXPECT_EQ(words_of(Day{1, 365}), "year 1 December 31");
}

TEST(RotationDays, InNumbersAreRefusedWithBothReadings) {
    const auto said = [](const std::string& written) {
        return message_of(with("  rotation: {operations: [{tool: planter, day: " + written + "}]}"));
    };
    EXPECT_THAT(said("5/1"), testing::AllOf(HasSubstr("May 1"), HasSubstr("January 5")));
    EXPECT_THAT(said("05-01"), testing::AllOf(HasSubstr("May 1"), HasSubstr("January 5")));
    EXPECT_THAT(said("13.5."), testing::AllOf(HasSubstr("May 13"), testing::Not(HasSubstr("May 5"))));
    EXPECT_THAT(said("2026-05-01"), HasSubstr("a rotation repeats"));
    EXPECT_THAT(said("May"), HasSubstr("names no day"));
    EXPECT_THAT(said("April 31"), HasSubstr("There is no April 31"));
}

TEST(RotationInAFile, ProblemsStandAtTheirEntries) {
    try {
        read_fields(
            with("  rotation:\n    crops:\n      - {crop: corn, planted: May 1, harvested: May 1}\n      - {crop: "
                 "oats, planted: April 1}"),
            "bench.yaml");
        FAIL();
    } catch (const InputError& error) {
        ASSERT_EQ(error.diagnostics.size(), 2U);
        EXPECT_EQ(error.diagnostics[0].code, "crop-no-time");
        EXPECT_EQ(error.diagnostics[0].place.line, 9);
        EXPECT_EQ(error.diagnostics[1].code, "crop-half-dated");
        EXPECT_EQ(error.diagnostics[1].place.line, 10);
    }
}

TEST(RotationInAFile, StandsAloneAmongTheWaysToC) {
    const std::string words = "\"corn-soybean, fall chisel\"";
    EXPECT_THAT(refused(with("  {factor: 0.2, rotation: " + words + "}")), ElementsAre("one-of"));
    EXPECT_THAT(refused(with("  {parts: {surface cover: 30 %}, rotation: " + words + "}")), ElementsAre("one-of"));
    EXPECT_THAT(refused(with("  {rotation: " + words + ", credits: tilled}")), ElementsAre("double-count"));
    EXPECT_THAT(refused(with("  {factor: 0.2, residue reading: {day: May 1, cover: 20 %}}")), ElementsAre("missing"));
}

TEST(RotationChanges, AreDoneInOrder) {
    const loss::Field field = read(with("  rotation: \"corn-soybean, fall plow\"",
                                        "changes:\n"
                                        "  - {change: a, rotation: no-till}\n"
                                        "  - {change: b, rotation: [no-till, take 50 % of the stalks]}\n"
                                        "  - {change: c, rotation: \"corn-soybean, spring chisel\"}\n"
                                        "  - {change: d, rotation: {crops: [{crop: grass sod}]}}\n"
                                        "  - {change: e, practice: contouring}\n"));
    ASSERT_EQ(field.changes.size(), 5U);
    const rotation::Edited& two = *field.changes[1].rotation;
    EXPECT_LT(two.sentence.find("No-till"), two.sentence.find("50 %"));
    EXPECT_EQ(two.rotation.removed.size(), 2U);
    EXPECT_EQ(two.rotation.operations.size(), field.changes[0].rotation->rotation.operations.size());
    EXPECT_EQ(field.changes[2].rotation->sentence, "Another rotation: corn-soybean, spring chisel.");
    EXPECT_EQ(field.changes[3].rotation->rotation.crops.size(), 1U);
    EXPECT_FALSE(field.changes[4].rotation);
    // The order is that of every trial of tillage: plow > no-till with half the stalks > no-till > sod.
    const loss::FieldInputs inputs = loss::inputs_of(field);
    EXPECT_GT(inputs.now.C.central, inputs.changes[1].C.central);
    EXPECT_GT(inputs.changes[1].C.central, inputs.changes[0].C.central);
    EXPECT_GT(inputs.changes[0].C.central, inputs.changes[3].C.central);
    EXPECT_DOUBLE_EQ(inputs.changes[4].C.central, inputs.now.C.central);
    EXPECT_EQ(inputs.changes[1].remarks.at(0).text, two.sentence);
}

TEST(RotationChanges, OfAFieldWithoutARotationNeedAWholeOne) {
    EXPECT_THAT(refused(with("  factor: 0.2", "changes: [{change: a, rotation: no-till}]")),
                ElementsAre("rotation-change"));
    const loss::Field field =
        read(with("  factor: 0.2", "changes: [{change: a, rotation: \"continuous corn, no-till\"}]"));
    EXPECT_LT(loss::inputs_of(field).changes[0].C.central, 0.2);
    EXPECT_THAT(refused(with("  factor: 0.2", "changes: [{change: a, rotation: \"continuous corn, no-till\"}]", "")),
                ElementsAre("weather-missing", "weather-missing"));
}

TEST(RotationInAFile, DamagedIsRefusedByTheReaderOrWorkedThrough) {
    const std::string sound = with(two_years,
                                   "changes:\n  - {change: a, rotation: no-till}\n  - {change: b, rotation: [chisel "
                                   "instead of plow, cover crop after corn, 3 years of alfalfa]}\n");
    const std::string marks = "[]{}:,-#\"% 0123456789.eyabu";
    std::mt19937 random(20261125);
    int worked = 0, stopped = 0;
    const std::size_t start = sound.find("weather");
    for (int round = 0; round < 1000; ++round) {
        std::string damaged = sound;
        // Mostly other figures, which may still be read; now and then any letter.
        for (int i = 0; i <= round % 6; ++i) {
            std::size_t at = start + random() % (damaged.size() - start);
            if (random() % 8 != 0) {
                at = damaged.find_first_of("0123456789", at);
                if (at == std::string::npos) continue;
                damaged[at] = static_cast<char>('0' + random() % 10);
            } else if (random() % 2 == 0) {
                damaged[at] = marks[random() % marks.size()];
            } else {
                damaged.erase(at, 1);
            }
        }
        std::vector<loss::Field> fields;
        try {
            fields = read_fields(damaged, "damaged.yaml");
        } catch (const InputError& error) {
            ++stopped;
            for (const Diagnostic& found : error.diagnostics) ASSERT_GT(found.place.line, 0) << found.text << damaged;
            continue;
        }
        if (++worked % 8 != 0) continue;  // each takes a while
        for (const loss::Field& field : fields) {
            try {
                const double C = loss::inputs_of(field).now.C.central;
                ASSERT_GT(C, 0) << damaged;
                ASSERT_LE(C, 1) << damaged;
            } catch (const std::exception& error) {
                FAIL() << error.what() << "\n" << damaged;
            }
        }
    }
    EXPECT_GT(worked, 100);
    EXPECT_GT(stopped, 300);
}

}  // namespace
}  // namespace soilhold::input
