/// Gauge files as they come: which column, unit, clock and kind, and that what is missing never becomes dry.
#include "input/rain_record.h"

#include <gmock/gmock.h>

#include <chrono>
#include <cstdio>
#include <fstream>
#include <map>

#include "input/diagnostic.h"
#include "input/gauge_value.h"
#include "input/local_zone.h"
#include "input/time_stamp.h"
#include "program.h"

namespace soilhold::input {
namespace {

using testing::HasSubstr;

/// Minutes since 1970, by the calendar of the library rather than by our own.
double at(int year, unsigned month, unsigned day, int hour, int minute) {
    const std::chrono::sys_days date = std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day};
    return static_cast<double>(date.time_since_epoch().count()) * 1440.0 + hour * 60.0 + minute;
}

RainRecord read(const std::string& text, const RainOptions& options = {}) {
    const program::Folder folder;  // its own: tests run side by side
    const std::string path = folder.path + "/gauge.csv";
    std::ofstream(path, std::ios::binary) << text;
    return read_rain_record(path, options);
}

std::vector<Diagnostic> mistakes_of(const std::string& text, const RainOptions& options = {}) {
    try {
        read(text, options);
    } catch (const InputError& error) {
        return error.diagnostics;
    }
    return {};
}

std::string first_code(const std::string& text, const RainOptions& options = {}) {
    const auto found = mistakes_of(text, options);
    return found.empty() ? "" : found.front().code;
}

double total_mm(const RainRecord& read) {
    double sum = 0.0;
    for (const auto& one : read.record.rain) sum += one.depth_mm;
    return sum;
}

bool has_remark(const RainRecord& read, const std::string& code) {
    for (const auto& remark : read.remarks)
        if (remark.code == code) return true;
    return false;
}

/// Rows every `step` minutes from a stamp of 2016-05-01, dry but for the values given by row.
std::string logger(int rows, int step, const std::map<int, std::string>& values,
                   const std::string& heading = "datetime,rain_mm") {
    std::string text = heading + "\n";
    for (int i = 0; i < rows; ++i) {
        char line[64];
        const int minute = i * step;
        const auto found = values.find(i);
        std::snprintf(line, sizeof line, "2016-05-%02d %02d:%02d,%s\n", 1 + minute / 1440, minute / 60 % 24,
                      minute % 60, found == values.end() ? "0" : found->second.c_str());
        text += line;
    }
    return text;
}

TEST(TimeStamp, IsReadInEveryFormThatPublicRecordsUse) {
    const double wanted = at(2016, 5, 1, 14, 5);
    for (const char* text : {"2016-05-01 14:05", "2016-05-01T14:05", "2016-05-01T14:05:00", "2016/5/1 14:05",
                             "20160501 1405", "201605011405", "20160501140500", "5/1/2016 14:05", "5/1/2016 2:05 PM",
                             "05/01/16 02:05PM", "5-1-2016 14:05"}) {
        const TimeStamp stamp = read_time_stamp(text);
        EXPECT_EQ(stamp.wrong, nullptr) << text;
        EXPECT_DOUBLE_EQ(stamp.minute, wanted) << text;
        EXPECT_FALSE(stamp.offset_min) << text;
    }
    EXPECT_EQ(read_time_stamp("2016-05-01T14:05Z").offset_min, 0);
    EXPECT_EQ(read_time_stamp("2016-05-01 14:05:30.25-06:00").offset_min, -360);
    EXPECT_EQ(read_time_stamp("2016-05-01 14:05 +0530").offset_min, 330);
    EXPECT_DOUBLE_EQ(read_time_stamp("2016-04-30 24:00").minute, at(2016, 5, 1, 0, 0));
    EXPECT_DOUBLE_EQ(read_time_stamp("1/1/2016 12:10 AM").minute, at(2016, 1, 1, 0, 10));
}

TEST(TimeStamp, OfWhatCannotBeSaysWhy) {
    for (const char* text : {"2015-02-29 10:00", "2016-13-01 10:00", "2016-05-01 25:00", "2016-05-01 10:61",
                             "31/5/2016 10:00", "noon", "", "2016-05-01 10:00 CSTT", "0.25", "2016-05-01 10:00+99:00"})
        EXPECT_NE(read_time_stamp(text).wrong, nullptr) << text;
    EXPECT_THAT(read_time_stamp("31/5/2016 10:00").wrong, HasSubstr("month comes first"));
}

TEST(TimeStamp, CountsDaysAsTheCalendarDoes) {
    for (int year = 1900; year <= 2100; ++year)
        for (unsigned month = 1; month <= 12; ++month)
            for (unsigned day : {1U, 15U, 28U}) {
                char text[32];
                std::snprintf(text, sizeof text, "%04d-%02u-%02u 00:00", year, month, day);
                ASSERT_DOUBLE_EQ(read_time_stamp(text).minute, at(year, month, day, 0, 0)) << text;
            }
}

TEST(GaugeValue, KnowsDepthsTracesAndMarksForMissing) {
    for (const char* text : {"", "  ", "NA", "n/a", "NaN", "M", "-9999", "-999.9", "-99.00", "-9", "-9.000", "999.99",
                             "9999", "Eqp", "---"})
        EXPECT_EQ(read_gauge_value(text).is, ValueIs::missing) << text;
    EXPECT_EQ(read_gauge_value("T").is, ValueIs::trace);
    for (const char* text : {"0,25", "1.2.3", "0.1x", "e5", "1e", "--1"})
        EXPECT_EQ(read_gauge_value(text).is, ValueIs::no_number) << text;
    EXPECT_DOUBLE_EQ(read_gauge_value(" 0.01 ").value, 0.01);
    EXPECT_DOUBLE_EQ(read_gauge_value("1e-02").value, 0.01);
    EXPECT_DOUBLE_EQ(read_gauge_value(".5").value, 0.5);
    EXPECT_DOUBLE_EQ(read_gauge_value("9").value, 9.0);
    EXPECT_DOUBLE_EQ(read_gauge_value("99.5").value, 99.5);
    EXPECT_DOUBLE_EQ(read_gauge_value("-0.2").value, -0.2);
    EXPECT_DOUBLE_EQ(read_gauge_value("0.1502615").value, 0.1502615);
}

TEST(LocalZone, ChangesOnTheDaysOfEachYear) {
    // Days read off calendars: 2015-11-01, 2016-03-13, 2006-04-02, 2006-10-29, 2024-03-10, 2024-11-03
    EXPECT_EQ(read_summer_clock(at(2016, 3, 13, 2, 30)).hour, WallHour::skipped);
    EXPECT_EQ(read_summer_clock(at(2016, 3, 13, 1, 59)).hour, WallHour::once);
    EXPECT_DOUBLE_EQ(read_summer_clock(at(2016, 3, 13, 3, 0)).standard, at(2016, 3, 13, 2, 0));
    EXPECT_EQ(read_summer_clock(at(2015, 11, 1, 1, 0)).hour, WallHour::twice);
    EXPECT_DOUBLE_EQ(read_summer_clock(at(2015, 11, 1, 2, 0)).standard, at(2015, 11, 1, 2, 0));
    EXPECT_EQ(read_summer_clock(at(2006, 4, 2, 2, 0)).hour, WallHour::skipped);
    EXPECT_EQ(read_summer_clock(at(2006, 10, 29, 1, 30)).hour, WallHour::twice);
    EXPECT_EQ(read_summer_clock(at(2024, 3, 10, 2, 0)).hour, WallHour::skipped);
    EXPECT_EQ(read_summer_clock(at(2024, 11, 3, 1, 0)).hour, WallHour::twice);
    EXPECT_EQ(zone_named("CDT")->offset_min, -300);
    EXPECT_EQ(zone_named("-06:00")->standard_min, -360);
    EXPECT_FALSE(zone_named("Middle/Earth"));
}

TEST(RainRecord, OfALoggerKeepsRainAndGapsApart) {
    // Row 5 is blank, rows 8 and 9 are left out; 2 mm fell in row 3 and 1 mm in row 12.
    std::string text = logger(20, 15, {{3, "2.0"}, {5, ""}, {12, "1.0"}});
    for (const char* gone : {"2016-05-01 02:00,0\n", "2016-05-01 02:15,0\n"})
        text.erase(text.find(gone), std::string(gone).size());
    const RainRecord read = input::read(text);
    EXPECT_EQ(read.kind, "interval");
    EXPECT_EQ(read.missing_values, 1U);
    EXPECT_DOUBLE_EQ(total_mm(read), 3.0);
    ASSERT_EQ(read.record.missing.size(), 2U);
    EXPECT_DOUBLE_EQ(read.record.missing[0].start_min, at(2016, 5, 1, 1, 0));
    EXPECT_DOUBLE_EQ(read.record.missing[0].end_min, at(2016, 5, 1, 1, 15));
    EXPECT_DOUBLE_EQ(read.record.missing[1].start_min, at(2016, 5, 1, 1, 45));
    EXPECT_DOUBLE_EQ(read.record.missing[1].end_min, at(2016, 5, 1, 2, 15));
    EXPECT_DOUBLE_EQ(*read.record.fixed_interval_min, 15.0);
    EXPECT_DOUBLE_EQ(read.record.rain[0].start_min, at(2016, 5, 1, 0, 30));
    EXPECT_DOUBLE_EQ(read.record.rain[0].end_min, at(2016, 5, 1, 0, 45));
}

TEST(RainRecord, StampedAtTheStartLiesOneIntervalLater) {
    RainOptions options;
    options.stamp = "start";
    const RainRecord read = input::read(logger(20, 15, {{3, "2.0"}}), options);
    EXPECT_DOUBLE_EQ(read.record.rain[0].end_min, at(2016, 5, 1, 1, 0));
}

TEST(RainRecord, DryLeftOutOnlyWhenSaid) {
    std::string text =
        "datetime,rain_in\n2016-05-01 10:00,0.1\n2016-05-01 10:15,0.2\n2016-05-03 10:00,0.1\n2016-05-03 10:15,0.3\n";
    EXPECT_EQ(first_code(text), "which-kind");
    RainOptions options;
    options.kind = "interval";
    options.interval = "15 min";
    EXPECT_EQ(read(text, options).record.missing.size(), 1U);
    options.dry_left_out = true;
    EXPECT_TRUE(read(text, options).record.missing.empty());
    EXPECT_NEAR(total_mm(read(text, options)), 0.7 * 25.4, 1e-9);
}

TEST(RainRecord, TellsTipsByTheirRows) {
    const RainRecord read = input::read(
        "date,rain (in)\n10/4/2013 10:19,0.018\n10/4/2013 10:20,0.038\n10/4/2013 10:21,0.028\n10/4/2013 10:21,0.009\n"
        "10/4/2013 10:27,0.009\n");
    EXPECT_EQ(read.kind, "tips");
    EXPECT_NEAR(total_mm(read), 0.102 * 25.4, 1e-9);
    EXPECT_FALSE(read.record.fixed_interval_min);
}

TEST(RainRecord, OfStampsAloneTakesEachAsOneTip) {
    RainOptions options;
    options.tip = "0.2 mm";
    EXPECT_DOUBLE_EQ(total_mm(read("time\n2016-05-01 10:01\n2016-05-01 10:03\n2016-05-01 10:09\n", options)), 0.2 * 3);
    options.depth = "tips";
    EXPECT_NEAR(total_mm(read("time,tips\n2016-05-01 10:01,2\n2016-05-01 10:03,1\n2016-05-01 10:09,4\n", options)), 1.4,
                1e-12);
}

TEST(RainRecord, OfAWanderingHourlyClockIsNoCoarseRecord) {
    // Hours that come up to six minutes late or early, one of them soon after another.
    RainOptions options;
    options.interval = "60 min";
    const RainRecord read = input::read(
        "datetime,rain_mm\n2016-05-01 10:00,0\n2016-05-01 11:05,9\n2016-05-01 12:10,9\n2016-05-01 12:40,1\n"
        "2016-05-01 13:40,0\n",
        options);
    EXPECT_TRUE(read.record.missing.empty());
    EXPECT_LE(*read.record.fixed_interval_min, 60.0);
    EXPECT_NO_THROW(factors::erosivity_of_record(read.record));
}

TEST(RainRecord, WarnsOfALongSilence) {
    EXPECT_TRUE(has_remark(read("date,rain_in\n2016-01-01 10:01,0.01\n2016-05-01 10:03,0.02\n2016-05-01 10:09,0.01\n"),
                           "tips-silent"));
}

TEST(RainRecord, OfATotalTakesTheRisesAndItsNewBeginnings) {
    RainOptions options;
    options.kind = "cumulative";
    const RainRecord read = input::read(
        "datetime,total_mm\n2016-05-01 10:00,50.0\n2016-05-01 10:07,52.0\n2016-05-01 10:20,53.5\n2016-05-02 08:00,0.0\n"
        "2016-05-02 09:00,1.0\n2016-05-02 10:00,NA\n2016-05-02 11:00,4.0\n",
        options);
    EXPECT_DOUBLE_EQ(total_mm(read), 2.0 + 1.5 + 1.0);
    // 3 mm fell between 9 and 11, but not known when: missing, neither dry nor spread evenly.
    ASSERT_EQ(read.record.missing.size(), 1U);
    EXPECT_DOUBLE_EQ(read.record.missing[0].start_min, at(2016, 5, 2, 9, 0));
    EXPECT_DOUBLE_EQ(read.record.missing[0].end_min, at(2016, 5, 2, 11, 0));
    EXPECT_TRUE(has_remark(read, "gauge-emptied"));
    EXPECT_EQ(first_code("datetime,total_mm\n2016-05-01 10:00,50.0\n2016-05-01 10:07,45.0\n", options), "total-falls");
}

TEST(RainRecord, OfAPublicTabSeparatedFileNeedsNoWord) {
    const RainRecord read = input::read(
        "# a public gauge\n# retrieved some day\nagency_cd\tsite_no\tdatetime\ttz_cd\t12345_00045\t12345_00045_cd\n"
        "5s\t15s\t20d\t6s\t14n\t10s\n"
        "AG\t01\t2016-07-01 00:00\tCDT\t0.00\tA\nAG\t01\t2016-07-01 00:15\tCDT\t0.10\tA\n"
        "AG\t01\t2016-07-01 00:30\tCDT\t0.00\tA\nAG\t01\t2016-07-01 00:45\tCDT\tEqp\tA\n");
    EXPECT_NEAR(total_mm(read), 2.54, 1e-12);
    EXPECT_EQ(read.missing_values, 1U);
    // 00:15 by the summer clock is 23:15 of the day before in standard time.
    EXPECT_DOUBLE_EQ(read.record.rain[0].end_min, at(2016, 6, 30, 23, 15));
}

TEST(RainRecord, GivesTheHourShownTwiceToFirstAndSecond) {
    const std::string text =
        "datetime,rain_mm\n2015-11-01 00:30,0\n2015-11-01 01:00,1\n2015-11-01 01:30,0\n2015-11-01 01:00,2\n"
        "2015-11-01 01:30,0\n2015-11-01 02:00,0\n";
    RainOptions options;
    options.zone = "America/Chicago";
    const RainRecord read = input::read(text, options);
    ASSERT_EQ(read.record.rain.size(), 2U);
    EXPECT_TRUE(read.record.missing.empty());
    EXPECT_DOUBLE_EQ(read.record.rain[0].end_min, at(2015, 11, 1, 0, 0));
    EXPECT_DOUBLE_EQ(read.record.rain[1].end_min, at(2015, 11, 1, 1, 0));
    EXPECT_TRUE(has_remark(read, "hour-twice"));
    const auto mistakes = mistakes_of(text);
    ASSERT_FALSE(mistakes.empty());
    EXPECT_EQ(mistakes[0].code, "time-order");
    EXPECT_THAT(mistakes[0].text, HasSubstr("--zone"));
    EXPECT_EQ(mistakes[0].place.line, 5);
}

TEST(RainRecord, OfTheHourSkippedIsAMistakeUnderASummerClock) {
    const std::string text =
        "datetime,rain_mm\n2016-03-13 01:30,0\n2016-03-13 02:00,1\n2016-03-13 02:30,0\n2016-03-13 03:00,0\n";
    RainOptions options;
    options.zone = "America/Chicago";
    EXPECT_EQ(first_code(text, options), "hour-skipped");
    options.zone = "-06:00";
    EXPECT_DOUBLE_EQ(total_mm(read(text, options)), 1.0);
}

TEST(RainRecord, SeesASummerClockThatWasNotNamed) {
    std::string text = "datetime,rain_mm\n";
    for (const char* stamp : {"00:00", "00:30", "01:00", "01:30", "03:00", "03:30", "04:00", "04:30", "05:00"})
        text += std::string("2016-03-13 ") + stamp + ",0\n";
    EXPECT_TRUE(has_remark(read(text), "summer-time"));
}

TEST(RainRecord, OfOffsetsNeedsNoZone) {
    const RainRecord read = input::read(
        "datetime,rain_mm\n2015-11-01T01:00-05:00,1\n2015-11-01T01:30-05:00,0\n2015-11-01T01:00-06:00,0\n"
        "2015-11-01T01:30-06:00,0\n");
    EXPECT_TRUE(read.record.missing.empty());
    EXPECT_DOUBLE_EQ(read.record.rain[0].end_min, at(2015, 11, 1, 0, 0));
}

TEST(RainRecord, SaysEachMistakeWithItsPlace) {
    const auto found =
        mistakes_of(logger(20, 15, {{3, "two"}, {4, "0,5x"}, {6, "-0.3"}}) + "2016-05-01 99:00,0\nshort\n");
    ASSERT_EQ(found.size(), 5U);  // the comma of row 4 ends the cell
    EXPECT_EQ(found[0].code, "not-a-number");
    EXPECT_EQ(found[0].place.line, 5);
    EXPECT_EQ(found[0].place.column, 18);
    EXPECT_EQ(found[0].source_line, "2016-05-01 00:45,two");
}

TEST(RainRecord, ShowsTwentyMistakesAndCountsTheRest) {
    std::map<int, std::string> all;
    for (int i = 0; i < 60; ++i) all[i] = "?";
    auto text = logger(60, 15, all);
    const auto found = mistakes_of(text);
    ASSERT_EQ(found.size(), 21U);
    EXPECT_EQ(found.back().code, "more-mistakes");
    EXPECT_THAT(found.back().text, HasSubstr("40 more"));
}

TEST(RainRecord, AsksWhereThereIsDoubt) {
    EXPECT_EQ(first_code(logger(20, 15, {}, "datetime,rain")), "no-unit");
    EXPECT_EQ(first_code("datetime,rain_mm,precip_mm\n2016-05-01 10:00,0,0\n2016-05-01 10:15,0,0\n"), "which-column");
    EXPECT_EQ(first_code("datetime,x,y,z\n2016-05-01 10:00,0,0,0\n2016-05-01 10:15,0,0,0\n"), "no-column");
    RainOptions options;
    options.unit = "in";
    EXPECT_EQ(first_code(logger(20, 15, {}), options), "unit-differs");
    EXPECT_EQ(first_code("date,rain_mm\n2016-05-01,3\n2016-05-02,0\n2016-05-03,1\n2016-05-04,0\n"), "daily");
    EXPECT_EQ(first_code(
                  "datetime,rain_mm\n2016-05-01 00:00,3\n2016-05-01 03:00,0\n2016-05-01 06:00,0\n2016-05-01 09:00,0\n"),
              "interval-coarse");
    EXPECT_EQ(first_code(logger(20, 15, {{3, "900"}})), "too-much");
    EXPECT_EQ(first_code(""), "empty");
    EXPECT_EQ(first_code("datetime,rain_mm\n2016-05-01 10:01,NA\n2016-05-01 10:03,\n"), "all-missing");
    EXPECT_EQ(first_code(std::string("a\0b", 3)), "not-text");
    EXPECT_EQ(first_code("\xFF\xFE"
                         "d"),
              "not-utf8");
    options = {};
    options.zone = "Nowhere";
    EXPECT_EQ(first_code(logger(20, 15, {}), options), "unknown-zone");
}

TEST(RainRecord, OfARowWrittenTwiceCountsOnceOrAsks) {
    EXPECT_TRUE(has_remark(read(logger(20, 15, {{19, "1"}}) + "2016-05-01 04:45,1\n"), "row-twice"));
    EXPECT_DOUBLE_EQ(total_mm(read(logger(20, 15, {{19, "1"}}) + "2016-05-01 04:45,1\n")), 1.0);
    EXPECT_EQ(first_code(logger(20, 15, {{19, "1"}}) + "2016-05-01 04:45,2\n"), "time-twice");
}

TEST(RainRecord, ReadsSemicolonsQuotesMarksAndWindowsLines) {
    EXPECT_DOUBLE_EQ(
        total_mm(read(
            "\xEF\xBB\xBF\"Date\";\"Time\";\"Rain (mm)\"\r\n2016-05-01;10:00;0\r\n\"2016-05-01\";\"10:15\";\"1.5\"\r\n"
            "2016-05-01;10:30;0\r\n")),
        1.5);
}

TEST(RainRecord, ReadsNewestFirst) {
    const RainRecord read =
        input::read("datetime,rain_mm\n2016-05-01 10:45,0\n2016-05-01 10:30,2\n2016-05-01 10:15,0\n");
    EXPECT_TRUE(has_remark(read, "newest-first"));
    EXPECT_DOUBLE_EQ(read.record.rain.at(0).end_min, at(2016, 5, 1, 10, 30));
}

}  // namespace
}  // namespace soilhold::input
