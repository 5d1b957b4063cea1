/// soilhold rain as a user and as another program would run it, on measured rain and on what it must refuse.
#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string data = std::string(SOILHOLD_ROOT) + "/tests/field/data/";
const std::string tips = data + "rain_tips.csv";

nlohmann::json json_of(const std::vector<std::string>& arguments) {
    const Outcome done = run(arguments);
    EXPECT_EQ(done.exit_code, 0) << done.err;
    return nlohmann::json::parse(done.out);
}

/// "10/3/2013 19:54" as "2013-10-03 19:54", which sorts by time.
std::string sortable(const std::string& text) {
    int month = 0, day = 0, year = 0, hour = 0, minute = 0;
    std::sscanf(text.c_str(), "%d/%d/%d %d:%d", &month, &day, &year, &hour, &minute);
    char buffer[32];
    std::snprintf(buffer, sizeof buffer, "%04d-%02d-%02d %02d:%02d", year, month, day, hour, minute);
    return buffer;
}

struct SurveyStorm {
    std::string start, end;
    double rain_in = 0.0, I30_in_h = 0.0, EI_us = 0.0;
};

std::vector<SurveyStorm> survey_storms() {
    std::vector<SurveyStorm> all;
    std::istringstream text(slurp(data + "rain_storms.csv"));
    std::string line;
    std::getline(text, line);
    while (std::getline(text, line)) {
        std::vector<std::string> cells;
        std::istringstream row(line);
        for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
        all.push_back({sortable(cells.at(0)), sortable(cells.at(1)), std::stod(cells.at(2)), std::stod(cells.at(6)),
                       std::stod(cells.at(8))});
    }
    return all;
}

TEST(RainCommand, AgreesStormByStormWithTheSurveyThatRanTheGauge) {
    // Storms that both cut alike: the survey ends one after two dry hours, the handbooks after six. Its figures are
    // those of tests/field/data/rain_storms.csv (United States Geological Survey), with Handbook 537's energy.
    const auto json = json_of({"rain", tips, "--unit", "in", "--json"});
    const auto theirs = survey_storms();
    double x = 0, y = 0, xx = 0, yy = 0, xy = 0, n = 0;
    for (const auto& storm : json["storms"]) {
        std::vector<const SurveyStorm*> within;
        for (const SurveyStorm& one : theirs)
            if (one.end > storm["start"].get<std::string>() && one.start < storm["end"].get<std::string>())
                within.push_back(&one);
        if (within.size() != 1 || within[0]->I30_in_h <= 0) continue;
        // Drizzle of a tip an hour belongs to the storm after two dry hours, but not after six.
        if (within[0]->start != storm["start"].get<std::string>() || within[0]->end != storm["end"].get<std::string>())
            continue;
        const double ours = storm["EI30_537"].get<double>() / 17.02, survey = within[0]->EI_us;
        x += ours, y += survey, xx += ours * ours, yy += survey * survey, xy += ours * survey, n += 1;
        EXPECT_NEAR(storm["depth_mm"].get<double>(), within[0]->rain_in * 25.4, 0.02) << storm["start"];
        // Slow rain of a few tips has an I30 of one tip more or less.
        if (within[0]->rain_in >= 0.3) {
            EXPECT_NEAR(storm["I30_mm_per_h"].get<double>() / 25.4 / within[0]->I30_in_h, 1.0, 0.05) << storm["start"];
        }
    }
    EXPECT_GE(n, 15);
    EXPECT_GT((n * xy - x * y) / std::sqrt((n * xx - x * x) * (n * yy - y * y)), 0.99);
    EXPECT_NEAR(x / y, 1.0, 0.20);
}

TEST(RainCommand, OfSevenMonthsGivesNoRAndSaysWhy) {
    const auto json = json_of({"rain", tips, "--unit", "in", "--json"});
    EXPECT_TRUE(json["R"].is_null());
    EXPECT_EQ(json["format"], 1);
    EXPECT_EQ(json["half_months"].size(), 24U);
    const Outcome text = run({"rain", tips, "--unit", "in"});
    EXPECT_THAT(text.out, StartsWith("No R yet"));
}

/// Two calendar years by the quarter hour with a storm a month, the second year twice as erosive in depth.
std::string two_years() {
    std::string text = "datetime,rain_mm\n";
    const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (int year : {2013, 2014})
        for (int month = 0; month < 12; ++month)
            for (int day = 1; day <= days[month]; ++day)
                for (int quarter = 1; quarter <= 96; ++quarter) {
                    char line[64];
                    const bool wet = day == 10 && quarter > 48 && quarter <= 52;
                    std::snprintf(line, sizeof line, "%04d-%02d-%02d %02d:%02d,%s\n", year, month + 1, day, quarter / 4,
                                  quarter % 4 * 15,
                                  !wet           ? "0"
                                  : year == 2013 ? "5"
                                                 : "10");
                    text += line;
                }
    return text;
}

TEST(RainCommand, AnswersFirstInEightyPlainColumns) {
    const Outcome done = run({"rain", "-"}, two_years());
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_THAT(done.out, StartsWith("R about "));
    EXPECT_THAT(done.out, HasSubstr("2 full years (2013 to 2014)"));
    EXPECT_THAT(done.out, HasSubstr("20 are customary"));
    EXPECT_THAT(done.out, HasSubstr("Brown & Foster"));
    EXPECT_THAT(done.out, HasSubstr("Yin et al. 2007"));
    std::istringstream text(done.out);
    for (std::string line; std::getline(text, line);) {
        EXPECT_LE(line.size(), 80U) << line;
        for (const char c : line) EXPECT_TRUE(c >= 32 && c < 127) << line;
    }
}

TEST(RainCommand, GivesTheRThatAHandWorksOut) {
    const Outcome done = run({"rain", "-", "--json"}, two_years());
    ASSERT_EQ(done.exit_code, 0) << done.err;
    const auto json = nlohmann::json::parse(done.out);
    // By hand: 20 mm/h for an hour, e = 0.29 (1 - 0.72 exp(-1)) = 0.213187, E = 4.26373, I30 = 20: EI30 85.2747.
    // 40 mm/h: e = 0.29 (1 - 0.72 exp(-2)) = 0.261742, E = 10.46969, I30 = 40: EI30 418.788. Twelve of each.
    ASSERT_EQ(json["storms"].size(), 24U);
    EXPECT_NEAR(json["storms"][0]["EI30_brown_foster"].get<double>(), 85.2747, 0.001);
    EXPECT_NEAR(json["storms"][12]["EI30_brown_foster"].get<double>(), 418.788, 0.005);
    const double factor = json["interval_correction"]["factor"].get<double>();
    EXPECT_GT(factor, 1.014);
    EXPECT_LT(factor, 1.730);
    EXPECT_NEAR(json["R"]["central"].get<double>(), factor * 12 * (85.2747 + 418.788) / 2, 0.05);
    for (std::size_t i = 0; i < 24; ++i)  // the tenth day: the first half of each month
        EXPECT_NEAR(json["half_months"][i].get<double>(), i % 2 == 0 ? 1.0 / 12 : 0.0, 1e-12);
}

TEST(RainCommand, CsvHoldsStormsYearsHalfMonthsAndGaps) {
    const Outcome done = run({"rain", data + "rain_logger.csv", "--csv", "--units", "metric"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_THAT(done.out, StartsWith("record,start,end,depth_mm,hours,I30_mm_per_h,"));
    for (const char* row : {"\nstorm,2016-06-14 18:45,", "\nyear,2015,", "\nhalf month,06-16,", "\nmissing,2015-11-02"})
        EXPECT_THAT(done.out, HasSubstr(row));
    std::istringstream text(done.out);
    for (std::string line; std::getline(text, line);) EXPECT_EQ(std::count(line.begin(), line.end(), ','), 11) << line;
}

TEST(RainCommand, OfALoggerOnASummerClockFindsNoGapInAutumn) {
    const auto json = json_of({"rain", data + "rain_logger.csv", "--json"});
    // Only the months between the two stretches are missing; the hour shown twice on 1 November is there twice.
    ASSERT_EQ(json["recorded"]["missing"].size(), 1U);
    double depth = 0;
    for (const auto& storm : json["storms"]) depth += storm["depth_mm"].get<double>();
    // The column added up by awk: 2.76 in
    EXPECT_NEAR(depth, 2.76 * 25.4, 0.01);
}

TEST(RainCommand, JsonFitsItsSchema) {
    for (const std::string& input : {two_years(), slurp(data + "rain_logger.csv")}) {
        const Outcome done = run({"rain", "-", "--json"}, input);
        ASSERT_EQ(done.exit_code, 0) << done.err;
        const auto fits = program::fits_schema(done.out, "rain-report.schema.json");
        if (!fits) GTEST_SKIP() << "python3 lacks jsonschema";
        EXPECT_TRUE(*fits);
    }
}

TEST(RainCommand, ExitsWithTwoAndWritesNothingForWhatItCannotUse) {
    for (const auto& [arguments, input, code] :
         std::vector<std::tuple<std::vector<std::string>, std::string, std::string>>{
             {{"rain", "-"}, "", "empty"},
             {{"rain", "-"}, "datetime,rain\n2016-05-01 10:00,0\n", "no-unit"},
             {{"rain", "-"}, "date,rain_mm\n2016-05-01,3\n2016-05-02,0\n2016-05-03,1\n", "daily"},
             {{"rain", "-", "--zone", "Moon"}, "datetime,rain_mm\n2016-05-01 10:00,0\n", "unknown-zone"},
             {{"rain", "-", "--interval", "often"}, "datetime,rain_mm\n2016-05-01 10:00,0\n", "interval"},
             {{"rain", "/nowhere/at.all"}, "", "no-file"},
             {{"rain", "/"}, "", "folder"}}) {
        const Outcome done = run(arguments, input);
        EXPECT_EQ(done.exit_code, 2) << code << done.err;
        EXPECT_EQ(done.out, "") << code;
        EXPECT_THAT(done.err, HasSubstr("[" + code + "]"));
    }
}

TEST(RainCommand, NeverFailsOfItselfOnADamagedFile) {
    const std::string whole = slurp(data + "rain_logger.csv").substr(0, 4000);
    std::mt19937 random(11);
    for (int trial = 0; trial < 150; ++trial) {
        std::string text = whole;
        for (int i = 0; i < 1 + trial % 12; ++i) {
            const std::size_t at = random() % text.size();
            if (trial % 3 == 0)
                text[at] = static_cast<char>(random() % 256);
            else if (trial % 3 == 1)
                text.erase(at, random() % 40);
            else
                text.insert(at, text.substr(random() % text.size(), random() % 80));
        }
        const Outcome done = run({"rain", "-", "--json"}, text);
        EXPECT_TRUE(done.exit_code == 0 || done.exit_code == 2) << done.exit_code << "\n" << done.err << text;
    }
}

}  // namespace
}  // namespace soilhold::program
