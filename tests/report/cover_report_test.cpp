// When in the year soil is lost: the season, the sentence, the table and the forms for other programs.
#include "report/cover_report.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <numeric>
#include <sstream>

#include "report/cautions.h"
#include "report/cover_tables.h"
#include "report/farmed_field.h"
#include "source/reference_table.h"

namespace soilhold::report {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

/// A calendar of so many years with these shares of loss (C = 1) and even rain.
rotation::Calendar made_calendar(const std::vector<std::array<double, 24>>& years) {
    rotation::Calendar calendar;
    calendar.years = static_cast<int>(years.size());
    calendar.C = 0;
    for (std::size_t year = 0; year < years.size(); ++year)
        for (std::size_t i = 0; i < 24; ++i) {
            rotation::CalendarRow row;
            row.year = static_cast<int>(year) + 1;
            row.half_month = i;
            row.contribution = years[year][i];
            row.erosivity_share = 1.0 / 24 / static_cast<double>(years.size());
            row.cover_pct = 40;
            row.canopy = 0.5;
            calendar.C += row.contribution;
            calendar.rows.push_back(row);
        }
    return calendar;
}

TEST(SeasonOfLoss, IsTheShortestThatHoldsEnough) {
    std::array<double, 24> year{};
    year[7] = 0.2, year[8] = 0.35, year[9] = 0.3, year[20] = 0.15;
    const Season season = season_of_loss(made_calendar({year}));
    EXPECT_EQ(season.first, 8U);  // 0.35 + 0.30 beats 0.20 + 0.35
    EXPECT_EQ(season.count, 2U);
    EXPECT_NEAR(season.loss, 0.65, 1e-12);
    EXPECT_NEAR(season.rain, 2.0 / 24, 1e-12);
    EXPECT_NEAR(season.shielded, 0.4 + 0.6 * 0.5, 1e-12);  // leaves cover half of what residue leaves bare
}

TEST(SeasonOfLoss, GoesOverTheTurnOfTheYear) {
    std::array<double, 24> year{};
    year[23] = 0.4, year[0] = 0.4, year[12] = 0.2;
    const Season season = season_of_loss(made_calendar({year}));
    EXPECT_EQ(season.first, 23U);
    EXPECT_EQ(season.count, 2U);
    EXPECT_TRUE(season.holds(0) && season.holds(23) && !season.holds(1) && !season.holds(22));
    EXPECT_EQ(date_of(season.first), "16 December");
    EXPECT_EQ(date_of(season.first + season.count - 1, true), "15 January");
}

TEST(SeasonOfLoss, TakesAllYearsOfTheRotationTogether) {
    std::array<double, 24> first{}, second{};
    first[8] = 0.3, first[2] = 0.2;
    second[8] = 0.31, second[16] = 0.19;
    const Season season = season_of_loss(made_calendar({first, second}));
    EXPECT_EQ(season.first, 8U);
    EXPECT_EQ(season.count, 1U);
    EXPECT_NEAR(season.loss, 0.61, 1e-12);
    EXPECT_NEAR(season.rain, 1.0 / 24, 1e-12);
}

TEST(SeasonOfLoss, IsTheWholeYearWhereNothingLessHoldsEnough) {
    std::array<double, 24> even;
    even.fill(1.0 / 24);
    EXPECT_EQ(season_of_loss(made_calendar({even}), 0.999).count, 24U);
    EXPECT_EQ(season_of_loss(made_calendar({{}})).count, 24U);  // no loss at all
}

TEST(CoverReport, LeavesOutFieldsAndWaysWithoutACalendar) {
    loss::Field plain = loss::made_field("Plain", 0.2);
    loss::Field field = plowed_field();
    loss::Change mulch;
    mulch.name = "mulch";
    mulch.cover = factors::CoverDescription{};
    mulch.cover->factor = loss::stated(0.1);
    field.changes.insert(field.changes.begin(), mulch);
    const auto comparison = estimated({plain, field});
    const auto fields = cover_of_fields(comparison);
    ASSERT_EQ(fields.size(), 1U);
    ASSERT_EQ(fields[0].ways.size(), 3U);
    EXPECT_EQ(fields[0].ways[1].name, "chisel instead of plow");
    EXPECT_THAT(fields[0].ways[1].rotation, HasSubstr("hisel plow")) << "each way keeps its own words";
    EXPECT_GT(fields[0].ways[0].loss.central, fields[0].ways[1].loss.central);
    EXPECT_GT(fields[0].ways[1].loss.central, fields[0].ways[2].loss.central);
}

TEST(CoverReport, LeadsWithTheSentenceInEightyPlainColumns) {
    const auto comparison = estimated({plowed_field(true)});
    for (const auto system : {units::System::us, units::System::metric}) {
        const std::string text = cover_text(cover_of_fields(comparison), system);
        EXPECT_THAT(text, StartsWith("Of Wether Fold's soil loss, "));
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            EXPECT_LE(line.size(), 80U) << line;
            for (const char c : line) EXPECT_TRUE(c >= 32 && c < 127) << line;
        }
        EXPECT_THAT(text, HasSubstr("corn planted"));
        EXPECT_THAT(text, HasSubstr("moldboard plow"));
        EXPECT_THAT(text, HasSubstr("[cover-calendar-memory]"));
        EXPECT_THAT(text, HasSubstr("from memory"));
        EXPECT_THAT(text, HasSubstr(system == units::System::us ? "t/ac" : "t/ha"));
        EXPECT_THAT(text, Not(HasSubstr(system == units::System::us ? "t/ha" : "t/ac")));
    }
    for (const std::string& caution : cautions())
        EXPECT_THAT(cover_text(cover_of_fields(comparison), units::System::us), HasSubstr(caution.substr(0, 40)));
}

TEST(CoverReport, OfMostLossInSpringIsLeastCoveredThen) {
    // A plowed field of the Corn Belt lies bare in May and June and is full of leaves in July and August.
    const auto comparison = estimated({plowed_field()});
    const auto fields = cover_of_fields(comparison);
    const Season season = season_of_loss(fields[0].ways[0].cover.calendar);
    EXPECT_TRUE(season.holds(8) && season.holds(9) && !season.holds(15)) << season.first << " " << season.count;
    EXPECT_LT(season.shielded, 0.35);
    EXPECT_GT(same_season(season, fields[0].ways[2].cover.calendar).shielded, 0.6) << "no-till";
    EXPECT_GT(season.loss, season.rain);
}

TEST(CoverTables, RowsAddUpToCAndToTheLoss) {
    const auto comparison = estimated({plowed_field(true)});
    const auto fields = cover_of_fields(comparison);
    const auto json = nlohmann::json::parse(cover_json(fields, "1.2.3"));
    EXPECT_EQ(json["format"], 1);
    ASSERT_EQ(json["fields"][0]["ways"].size(), 4U);
    for (const auto& way : json["fields"][0]["ways"]) {
        double C = 0, share = 0, loss = 0, rain = 0;
        for (const auto& row : way["rows"]) {
            C += row["product"].get<double>();
            share += row["share_of_loss"].get<double>();
            loss += row["loss_t_ha"].get<double>();
            rain += row["erosivity_share"].get<double>();
            EXPECT_NEAR(row["product"].get<double>(), row["SLR"].get<double>() * row["erosivity_share"].get<double>(),
                        1e-9);
        }
        const double years = way["years"].get<double>();
        EXPECT_EQ(way["rows"].size(), 24 * way["years"].get<std::size_t>());
        EXPECT_NEAR(C / way["C"]["central"].get<double>(), 1, 1e-6) << way["name"];
        EXPECT_NEAR(share, 1, 1e-9);
        EXPECT_NEAR(rain, 1, 1e-9);
        EXPECT_NEAR(loss / years, way["loss"]["central"].get<double>(), 1e-9);
    }
}

TEST(CoverTables, CsvIsOneRowAHalfMonthAndWay) {
    loss::Field field = plowed_field();
    field.name = "Fold, the \"wet\" one";
    const auto comparison = estimated({field});
    const auto fields = cover_of_fields(comparison);
    const auto cells = source::split_csv(cover_csv(fields, units::System::us));
    ASSERT_EQ(cells.size(), 1U + 3 * 48);
    for (const auto& row : cells) EXPECT_EQ(row.size(), cells[0].size());
    EXPECT_EQ(cells[1][0], field.name);
    EXPECT_EQ(cells[0].back(), "loss_t_per_ac");
    const auto metric = source::split_csv(cover_csv(fields, units::System::metric));
    // 2.2417 t/ha to the US ton an acre, from their definitions
    EXPECT_NEAR(std::stod(metric[10].back()) / std::stod(cells[10].back()), 2.2417, 1e-3);
}

}  // namespace
}  // namespace soilhold::report
