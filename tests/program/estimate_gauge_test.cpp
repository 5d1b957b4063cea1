/// R from a gauge record in an estimate, beside what `soilhold rain` says of the same record.
#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "program.h"

namespace soilhold::program {
namespace {

using testing::HasSubstr;

/// Three calendar years by the quarter hour, an hour of rain on the 10th of each month, more of it each year; three
/// days of the second February were not recorded.
std::string three_years() {
    std::string text = "datetime,rain_mm\n";
    const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (int year = 2013; year <= 2015; ++year)
        for (int month = 0; month < 12; ++month)
            for (int day = 1; day <= days[month]; ++day)
                for (int quarter = 1; quarter <= 96; ++quarter) {
                    char line[64];
                    const bool wet = day == 10 && quarter > 48 && quarter <= 52;
                    const bool lost = year == 2014 && month == 1 && day >= 20 && day < 23;
                    const std::string depth = lost ? "NA" : wet ? std::to_string(2 + 2 * (year - 2012)) : "0";
                    std::snprintf(line, sizeof line, "%04d-%02d-%02d %02d:%02d,%s\n", year, month + 1, day, quarter / 4,
                                  quarter % 4 * 15, depth.c_str());
                    text += line;
                }
    return text;
}

std::string field_with(const std::string& rain) {
    return "field: Bench\nrain: " + rain +
           "\nsoil: {map unit: SkC, texture: loam, erodibility: 0.30 US, tolerance: 5 t/ac/yr}\n"
           "slope: {length: 100 ft, steepness: 5 %}\ncover: {factor: 0.2, credits: reduced}\n";
}

struct Bench {
    Folder folder;
    Bench() {
        std::ofstream(folder.path + "/gauge.csv", std::ios::binary) << three_years();
        std::ofstream(folder.path + "/bench.yaml") << field_with("{gauge: gauge.csv, from: gauge of the school}");
        std::ofstream(folder.path + "/537.yaml") << field_with("{gauge: {file: gauge.csv, energy: Handbook 537}}");
    }
    nlohmann::json R(const std::string& file, const std::string& form = "--json") const {
        const Outcome done = run({"estimate", folder.path + "/" + file, form, "--explain"});
        EXPECT_EQ(done.exit_code, 0) << done.err;
        return nlohmann::json::parse(done.out)["fields"][0]["factors"]["R"];
    }
};

TEST(EstimateFromAGauge, HasTheRThatTheRainCommandHas) {
    const Bench bench;
    const Outcome rain = run({"rain", bench.folder.path + "/gauge.csv", "--json"});
    ASSERT_EQ(rain.exit_code, 0) << rain.err;
    const auto report = nlohmann::json::parse(rain.out);
    const auto theirs = report["R"];
    const auto ours = bench.R("bench.yaml");
    const auto same = [](const nlohmann::json& one, const nlohmann::json& other) {
        EXPECT_NEAR(one.get<double>() / other.get<double>(), 1.0, 1e-9);
    };
    same(ours["value"], theirs["central"]);
    same(ours["low"], theirs["low"]);
    same(ours["high"], theirs["high"]);
    same(bench.R("537.yaml")["value"], report["R_537"]["central"]);
    EXPECT_THAT(ours["source"].get<std::string>(), HasSubstr("gauge of the school (gauge.csv)"));
}

TEST(EstimateFromAGauge, SaysItsYearsItsGapsAndItsWorking) {
    const Bench bench;
    const Outcome text = run({"estimate", bench.folder.path + "/bench.yaml"});
    ASSERT_EQ(text.exit_code, 0) << text.err;
    EXPECT_THAT(text.out, HasSubstr("3 full years (2013 to 2015)"));
    EXPECT_THAT(text.out, HasSubstr("3.0 days together"));
    std::ofstream(bench.folder.path + "/json")
        << run({"estimate", bench.folder.path + "/bench.yaml", "--json", "--explain"}).out;
    const std::string script = "python3 " SOILHOLD_ROOT "/tests/program/working_arithmetic.py 20 < ";
    EXPECT_EQ(std::system((script + bench.folder.path + "/json").c_str()), 0);
}

TEST(EstimateFromAGauge, CitesEveryStep) {
    const Bench bench;
    const auto R = bench.R("bench.yaml");  // named, so that its steps outlive the loop
    for (const auto& step : R["steps"])
        EXPECT_FALSE(step["source"].get<std::string>().empty()) << step.dump();
}

TEST(EstimateFromAGauge, OfHalfAYearIsRefusedAtItsLine) {
    const Bench bench;
    const std::string all = three_years();
    std::ofstream(bench.folder.path + "/short.csv") << all.substr(0, all.find("2013-08-01"));
    std::ofstream(bench.folder.path + "/short.yaml") << field_with("{gauge: short.csv}");
    const Outcome done = run({"estimate", bench.folder.path + "/short.yaml"});
    EXPECT_EQ(done.exit_code, 2);
    EXPECT_THAT(done.err, HasSubstr("short.yaml:2:"));
    EXPECT_THAT(done.err, HasSubstr("[record-too-short]"));
}

TEST(EstimateFromAGauge, SaysWhenTheErosivityFallsOnARotation) {
    const Bench bench;
    std::string yaml = field_with("{gauge: gauge.csv, from: gauge of the school}");
    yaml.replace(
        yaml.find("cover: {factor: 0.2, credits: reduced}"), 38,
        "weather: {temperature: {mean: 50 F, warmest above mean: 23 F}, rain: [2 in, 2 in, 3 in, 3 in, 4 in, 4 in, "
        "4 in, 4 in, 3 in, 3 in, 2 in, 2 in]}\ncover: {rotation: \"continuous corn, fall plow\"}");
    std::ofstream(bench.folder.path + "/round.yaml") << yaml;
    const Outcome done = run({"estimate", bench.folder.path + "/round.yaml", "--json", "--explain"});
    ASSERT_EQ(done.exit_code, 0) << done.err;
    EXPECT_THAT(done.out, testing::Not(HasSubstr("erosivity-by-rain-squared")));
    const auto field = nlohmann::json::parse(done.out)["fields"][0];
    bool said = false;
    for (const auto& step : field["factors"]["C"]["steps"])
        if (step["words"].get<std::string>().find("most erosive half-month") != std::string::npos) {
            said = true;
            // One storm a month, alike in each of a year, in its first half: a twelfth of the year.
            EXPECT_NEAR(step["value"].get<double>(), 100.0 / 12, 0.01);
            EXPECT_THAT(step.dump(), HasSubstr("gauge.csv"));
        }
    EXPECT_TRUE(said);
}

}  // namespace
}  // namespace soilhold::program
