#include "report/cover_result.h"

#include <fmt/format.h>

#include <cmath>

#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using rotation::Calendar;
using rotation::CalendarRow;
using units::Kind;

constexpr std::array<const char*, 12> months = {"January", "February", "March",     "April",   "May",      "June",
                                                "July",    "August",   "September", "October", "November", "December"};
constexpr std::array<int, 12> month_days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

Season measured(std::size_t first, std::size_t count, const Calendar& calendar) {
    Season season{first, count};
    for (const CalendarRow& row : calendar.rows) {
        if (!season.holds(row.half_month)) continue;
        season.loss += share_of_loss(calendar, row);
        season.rain += row.erosivity_share;
        season.shielded += shielded(row) / static_cast<double>(count * static_cast<std::size_t>(calendar.years));
    }
    return season;
}

/// "a third" for shares that a reader sees before the eyes; else per cent.
std::string ground_in_words(double share) {
    if (share < 0.08) return "hardly any of the ground";
    for (const auto& [part, words] :
         {std::pair(0.25, "a quarter"), std::pair(1.0 / 3, "a third"), std::pair(0.5, "half"),
          std::pair(2.0 / 3, "two thirds"), std::pair(0.75, "three quarters")})
        if (std::abs(share - part) < 0.035) return fmt::format("about {} of the ground", words);
    return fmt::format("{:.0f} % of the ground", 100 * share);
}

std::string owned(const std::string& name) { return name + (name.ends_with('s') ? "'" : "'s"); }

}  // namespace

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

double shielded(const CalendarRow& row) {
    const double cover = row.cover_pct / 100.0;
    return cover + (1.0 - cover) * row.canopy;
}

double share_of_loss(const Calendar& calendar, const CalendarRow& row) {
    return calendar.C > 0 ? row.contribution / calendar.C : 0.0;
}

std::vector<CoverOfField> cover_of_fields(const change::Comparison& comparison) {
    std::vector<CoverOfField> list;
    for (const loss::FieldEstimate& estimate : comparison.fields) {
        CoverOfField one;
        one.estimate = &estimate;
        const auto& weather = estimate.field.weather;
        one.temperature_origin = weather.temperature_origin;
        one.rain_origin = weather.rain_origin;
        const source::Origin by_rain{weather.half_month_rain_mm ? "in proportion to the half-months' rain"
                                                                : "by the squares of the months' rain",
                                     "", source::Standing::our_assumption};
        one.erosivity_origin = weather.erosivity_share ? weather.erosivity_origin : by_rain;
        if (estimate.calendar)
            one.ways.push_back({"as now", estimate.field.rotation ? estimate.field.rotation->rotation.name : "", true,
                                estimate.factor("C"), estimate.loss, *estimate.calendar});
        for (std::size_t i = 0; i < estimate.changes.size(); ++i) {
            const loss::ChangeResult& change = estimate.changes[i];
            if (!change.calendar) continue;
            std::string words;
            if (i < estimate.field.changes.size() && estimate.field.changes[i].rotation)
                words = estimate.field.changes[i].rotation->sentence;
            one.ways.push_back({change.name, words, false, change.C, change.loss, *change.calendar});
        }
        if (!one.ways.empty()) list.push_back(std::move(one));
    }
    return list;
}

Season season_of_loss(const Calendar& calendar, double least) {
    for (std::size_t count = 1; count < 24; ++count) {
        Season best;
        for (std::size_t first = 0; first < 24; ++first) {
            const Season season = measured(first, count, calendar);
            if (season.loss > best.loss) best = season;
        }
        if (best.loss >= least) return best;
    }
    return measured(0, 24, calendar);
}

Season same_season(const Season& season, const Calendar& calendar) {
    return measured(season.first, season.count, calendar);
}

std::string date_of(std::size_t half_month, bool last) {
    const std::size_t month = half_month / 2 % 12;
    const bool first_half = half_month % 2 == 0;
    const int day = last ? (first_half ? 15 : month_days[month]) : (first_half ? 1 : 16);
    return fmt::format("{} {}", day, months[month]);
}

std::string season_sentence(const CoverOfField& field) {
    const CoverWay& way = field.ways.front();
    const Season season = season_of_loss(way.cover.calendar);
    return fmt::format(
        "Of {} soil loss{}, {:.0f} % comes between {} and {}, when {:.0f} % of the year's rain force falls {} {} is "
        "covered.",
        owned(field.estimate->field.name), way.as_now ? "" : " with " + way.name, 100 * season.loss,
        date_of(season.first), date_of(season.first + season.count - 1, true), 100 * season.rain,
        season.shielded < 0.5 ? "and" : "though", ground_in_words(season.shielded));
}

std::vector<std::string> way_sentences(const CoverOfField& field, units::System system) {
    std::vector<std::string> list;
    const CoverWay& first = field.ways.front();
    const Season season = season_of_loss(first.cover.calendar);
    const double before = first.loss.central * season.loss;
    for (std::size_t i = 1; i < field.ways.size(); ++i) {
        const CoverWay& way = field.ways[i];
        const Season then = same_season(season, way.cover.calendar);
        const double after = way.loss.central * then.loss;
        list.push_back(fmt::format("{}: {} is covered in those weeks, and {} {} leaves instead of {}.",
                                   capital(way.name), ground_in_words(then.shielded), tons(after, system),
                                   loss_unit(system), tons(before, system)));
    }
    return list;
}

std::string tons(double si, units::System system) {
    const double value = units::in_unit(Kind::soil_loss, si, system);
    if (value < 0.005) return "0";
    return value < 0.1 ? fmt::format("{:.2f}", value) : units::figures(value, 2);
}

}  // namespace soilhold::report
