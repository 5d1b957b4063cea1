/// `rain: gauge:` a record beside the field file, its options, and what it can't be.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <string>

#include "input/field_file.h"
#include "input/rain_record.h"
#include "program.h"

namespace soilhold::input {
namespace {

using testing::HasSubstr;

/// Years by the hour from 2013 on, with an hour of 20 mm on the 10th of each month at noon; `days` of the last.
std::string hourly(int years, const std::string& heading = "datetime,rain_mm", int days = 366) {
    const int length[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    std::string text = heading + "\n";
    for (int year = 2013; year < 2013 + years; ++year) {
        int day_of_year = 0;
        for (int month = 0; month < 12; ++month)
            for (int day = 1; day <= length[month]; ++day) {
                if (++day_of_year > days && year == 2012 + years) return text;
                for (int hour = 0; hour < 24; ++hour) {
                    char line[48];
                    std::snprintf(line, sizeof line, "%04d-%02d-%02d %02d:00,%s\n", year, month + 1, day, hour,
                                  day == 10 && hour == 12 ? "20" : "0");
                    text += line;
                }
            }
    }
    return text;
}

std::string field_with(const std::string& rain) {
    return "field: Bench\nrain: " + rain +
           "\nsoil: {map unit: SkC, texture: loam, erodibility: 0.30 US, tolerance: 5 t/ac/yr}\n"
           "slope: {length: 100 ft, steepness: 5 %}\ncover: {factor: 0.2, credits: reduced}\n";
}

struct InFolder {
    program::Folder folder;
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder.path + "/" + name, std::ios::binary) << text;
    }
    loss::Field read(const std::string& rain) const {
        return read_fields(field_with(rain), folder.path + "/bench.yaml").at(0);
    }
    /// Codes and sentences of what was refused.
    std::string refused(const std::string& rain) const {
        try {
            read(rain);
        } catch (const InputError& error) {
            std::string all;
            for (const Diagnostic& one : error.diagnostics)
                all += std::to_string(one.place.line) + ": " + one.text + " [" + one.code + "]\n";
            return all;
        }
        return "";
    }
};

TEST(Gauge, StandsBesideTheFieldFile) {
    const InFolder in;
    in.write("gauge.csv", hourly(2));
    const loss::Field field = in.read("{gauge: gauge.csv, from: gauge of the school}");
    ASSERT_TRUE(field.rain.gauge);
    const auto alone = factors::gauge_erosivity(read_rain_record(in.folder.path + "/gauge.csv").record,
                                                factors::RainEnergy::brown_foster, {});
    EXPECT_EQ(field.rain.gauge->long_term.R_brown_foster, alone.long_term.R_brown_foster);
    EXPECT_EQ(field.rain.gauge->record.from, "gauge of the school (gauge.csv)");
    EXPECT_EQ(field.rain.gauge->record.standing, source::Standing::users_figure);
    EXPECT_EQ(in.read("{gauge: " + in.folder.path + "/gauge.csv}").rain.gauge->record.from, "gauge.csv");
}

TEST(Gauge, OfAPlaceServesEveryField) {
    const InFolder in;
    in.write("gauge.csv", hourly(1));
    const std::string one =
        "    soil: {erodibility: 0.3 US}\n    slope: {length: 100 ft, steepness: 5 %}\n    cover: "
        "{factor: 0.2}\n";
    const auto fields = read_fields(
        "farm: A\nplace: {rain: {gauge: gauge.csv}}\nfields:\n  - field: One\n" + one + "  - field: Two\n" + one,
        in.folder.path + "/farm.yaml");
    EXPECT_EQ(factors::erosivity(fields[0].rain).central, factors::erosivity(fields[1].rain).central);
    EXPECT_TRUE(factors::erosivity(fields[0].rain).same_statement(factors::erosivity(fields[1].rain)));
}

TEST(Gauge, TakesTheOptionsOfTheRainCommandAsKeys) {
    const InFolder in;
    in.write("gauge.csv", hourly(2, "datetime,level"));
    EXPECT_THAT(in.refused("{gauge: gauge.csv}"), HasSubstr("'unit'"));
    EXPECT_THAT(in.refused("{gauge: gauge.csv}"), testing::Not(HasSubstr("--")));
    const loss::Field field =
        in.read("{gauge: {file: gauge.csv, depth: level, unit: mm, interval: 60 min, energy: handbook 537}}");
    EXPECT_EQ(field.rain.gauge->energy, factors::RainEnergy::handbook_537);
    EXPECT_EQ(field.rain.gauge->interval_min, 60.0);
    EXPECT_THAT(in.refused("{gauge: {file: gauge.csv, unit: furlong, depth: level}}"), HasSubstr("furlong"));
    EXPECT_THAT(in.refused("{gauge: {file: gauge.csv, energy: mine}}"), HasSubstr("[unknown-word]"));
    EXPECT_THAT(in.refused("{gauge: {file: gauge.csv, zon: CST}}"), HasSubstr("'zone'"));
    EXPECT_THAT(in.refused("{gauge: {energy: Handbook 537}}"), HasSubstr("[missing]"));
}

TEST(Gauge, InInchesGivesTheSameR) {
    const InFolder in;
    in.write("mm.csv", hourly(2));
    std::string inches = hourly(2, "datetime,rain_in");
    for (std::size_t at = inches.find(",20\n"); at != std::string::npos; at = inches.find(",20\n", at))
        inches.replace(at, 3, ",0.787401574803149606");  // 20/25.4
    in.write("in.csv", inches);
    const double mm = factors::erosivity(in.read("{gauge: mm.csv}").rain).central;
    EXPECT_NEAR(factors::erosivity(in.read("{gauge: in.csv}").rain).central / mm, 1.0, 1e-9);
}

TEST(Gauge, TellsMissingPeriodsAndNeverReadsThemAsDry) {
    const InFolder in;
    std::string text = hourly(2);
    // Four days in March of the first year without a value.
    for (int day = 14; day < 18; ++day)
        for (int hour = 0; hour < 24; ++hour) {
            const std::string stamp = fmt::format("2013-03-{:02d} {:02d}:00,", day, hour);
            text.replace(text.find(stamp) + stamp.size(), 1, "M");
        }
    in.write("gauge.csv", text);
    const loss::Field field = in.read("{gauge: gauge.csv}");
    const auto said = std::find_if(field.remarks.begin(), field.remarks.end(),
                                   [](const source::Remark& one) { return one.code == "record-missing"; });
    ASSERT_NE(said, field.remarks.end());
    EXPECT_THAT(said->text, HasSubstr("4.0 days"));
    EXPECT_THAT(said->place, HasSubstr("bench.yaml:2:"));
}

TEST(Gauge, WithoutAFullYearIsRefused) {
    const InFolder in;
    in.write("gauge.csv", hourly(1, "datetime,rain_mm", 200));
    const std::string said = in.refused("{gauge: gauge.csv}");
    EXPECT_THAT(said, HasSubstr("[record-too-short]"));
    EXPECT_THAT(said, HasSubstr("7 counted storms"));
    EXPECT_THAT(said, HasSubstr("2: 'gauge.csv' gives no R yet"));
}

TEST(Gauge, ThatCanNotBeReadSaysWhy) {
    const InFolder in;
    EXPECT_THAT(in.refused("{gauge: nowhere.csv}"), HasSubstr("2: 'nowhere.csv': There is no such file"));
    EXPECT_THAT(in.refused("{gauge: .}"), HasSubstr("[folder]"));
    EXPECT_THAT(in.refused("{gauge: /dev/null}"), HasSubstr("[no-file]"));
    in.write("daily.csv",
             "date,rain_mm\n2013-01-01 00:00,2\n2013-01-02 00:00,0\n2013-01-03 00:00,0\n2013-01-04 "
             "00:00,4\n2013-01-05 00:00,0\n");
    EXPECT_THAT(in.refused("{gauge: daily.csv}"), HasSubstr("[interval-coarse]"));
    std::string torn = hourly(1);
    torn.replace(torn.find("2013-02-10 12:00,20"), 19, "2013-02-10 12:00,2O");
    in.write("torn.csv", torn);
    // At its own line of the record: 1 of headings, 31 + 9 days of 24 rows, the thirteenth hour.
    EXPECT_THAT(in.refused("{gauge: torn.csv}"), HasSubstr("974: "));
    in.write("gauge.csv", hourly(1));
    EXPECT_THAT(in.refused("{gauge: gauge.csv, annual: 900 mm}"), HasSubstr("[one-of]"));
    EXPECT_THAT(in.refused("{gauge: gauge.csv, spread: 20 %}"), HasSubstr("[spread-range]"));
    EXPECT_THAT(in.refused("{gauge: [a.csv, b.csv]}"), HasSubstr("[not-a-value]"));
}

}  // namespace
}  // namespace soilhold::input
