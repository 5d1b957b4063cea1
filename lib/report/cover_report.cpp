#include "report/cover_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/cautions.h"
#include "report/columns.h"
#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using rotation::CalendarRow;
using units::System;

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

std::string range(const spread::Interval& value) {
    return units::figures(value.low, 2) + " to " + units::figures(value.high, 2);
}

std::string ways_table(const CoverOfField& field, System system) {
    const Season season = season_of_loss(field.ways.front().cover.calendar);
    std::vector<std::vector<std::string>> rows = {{"", "C", "likely", loss_unit(system) + "/yr", "likely", "then"}};
    for (const CoverWay& way : field.ways)
        rows.push_back({way.name, units::figures(way.C.value.central, 2), range(way.C.value),
                        tons(way.loss.central, system),
                        tons(way.loss.low, system) + " to " + tons(way.loss.high, system),
                        fmt::format("{:.0f} %", 100 * same_season(season, way.cover.calendar).loss)});
    return "\nEach way to farm it\n" + table(rows) +
           wrapped(
               fmt::format("Likely: the middle 80 %; one time in ten below it, one in ten above. Then: share of the "
                           "loss from {} to {}.",
                           date_of(season.first), date_of(season.first + season.count - 1, true)),
               "  ", "  ");
}

/// One line a half-month, and under it what was done then.
std::string half_months(const CoverWay& way, System system) {
    const rotation::Calendar& calendar = way.cover.calendar;
    const char* const roughness = system == System::us ? "rough in" : "rough mm";
    std::string text;
    for (int year = 1; year <= calendar.years; ++year) {
        text +=
            "\n" + way.name + (calendar.years > 1 ? fmt::format(", year {} of {}", year, calendar.years) : "") + "\n";
        text += fmt::format("  {:<6} {:>6} {:>6} {:>8} {:>5} {:>5} {:>5} {:>5} {:>6} {:>6} {:>6}\n", "from", "cover",
                            "canopy", roughness, "PLU", "CC", "SC", "SR", "SLR", "rain", "loss");
        text += fmt::format("  {:<6} {:>6} {:>6} {:>8} {:>5} {:>5} {:>5} {:>5} {:>6} {:>6} {:>6}\n", "", "%", "%", "",
                            "", "", "", "", "", "%", "%");
        for (const CalendarRow& row : calendar.rows) {
            if (row.year != year) continue;
            const std::string date = date_of(row.half_month);
            text += fmt::format(
                "  {:<6} {:>6.0f} {:>6.0f} {:>8} {:>5.2f} {:>5.2f} {:>5.2f} {:>5.2f} {:>6.3f} {:>6.1f} {:>6.1f}\n",
                date.substr(0, date.find(' ') + 4), row.cover_pct, 100 * row.canopy,
                system == System::us ? fmt::format("{:.1f}", row.roughness_mm / 25.4)
                                     : fmt::format("{:.0f}", row.roughness_mm),
                row.PLU, row.CC, row.SC, row.SR, row.SLR, 100 * row.erosivity_share * calendar.years,
                100 * share_of_loss(calendar, row));
            if (!row.happenings.empty()) text += wrapped(joined(row.happenings), "         > ", "           ");
        }
    }
    return text;
}

std::string origin_words(const source::Origin& origin) {
    return fmt::format("{} [{}]", origin.from.empty() ? "not said" : origin.from, source::words_for(origin.standing));
}

std::string sources(const CoverOfField& field) {
    std::string text = "\nWhere the figures come from\n";
    const auto say = [&](const std::string& what, const source::Origin& origin) {
        text += wrapped(what + ": " + origin_words(origin), "  ", "    ");
    };
    if (field.estimate->field.rotation) say("rotation", field.estimate->field.rotation->rotation.origin);
    for (const CoverWay& way : field.ways)
        if (!way.as_now && !way.rotation.empty()) text += wrapped(way.name + ": " + way.rotation, "  ", "    ");
    say("temperature", field.temperature_origin);
    say("rain", field.rain_origin);
    say("when the rain's force falls", field.erosivity_origin);
    say("C", field.ways.front().C.origin);
    say("range of C", field.ways.front().C.spread_origin);
    for (const loss::FactorValue& factor : field.estimate->factors)
        if (factor.symbol != "C" && factor.symbol != "m") say(factor.symbol, factor.origin);
    return text;
}

}  // namespace

source::Remarks cover_remarks(const CoverOfField& field) {
    source::Remarks list;
    const auto add = [&](const source::Remarks& remarks) {
        for (const source::Remark& remark : remarks)
            if (std::find(list.begin(), list.end(), remark) == list.end()) list.push_back(remark);
    };
    for (const CoverWay& way : field.ways) {
        add(way.C.remarks);
        add(way.cover.C.remarks);
    }
    return list;
}

std::string cover_text(const std::vector<CoverOfField>& fields, System system) {
    std::string text;
    for (const CoverOfField& field : fields) {
        if (!text.empty()) text += "\n" + std::string(terminal_columns, '-') + "\n";
        text += wrapped(season_sentence(field));
        for (const std::string& sentence : way_sentences(field, system)) text += wrapped(sentence, "- ", "  ");
        text += ways_table(field, system);
        for (const CoverWay& way : field.ways) text += half_months(way, system);
        text +=
            "\n" + wrapped(
                       "Cover: residue and living crowns on the ground; canopy: leaves above it. PLU earlier use and "
                       "rest, CC canopy, SC cover, SR roughness, each 1 on bare, smooth, tilled ground; SLR is their "
                       "product, the loss beside that of such ground. Rain: share of a year's force of rain. Loss: "
                       "share of the loss of the whole rotation. Rows are means of their days, so the mean of the "
                       "products is not just the product of the means.",
                       "  ", "  ");
        const source::Remarks remarks = cover_remarks(field);
        if (!remarks.empty()) text += "\n";
        for (const source::Weight weight : {source::Weight::caution, source::Weight::note})
            for (const source::Remark& remark : remarks)
                if (remark.weight == weight)
                    text += wrapped(fmt::format("{}{} [{}]", weight == source::Weight::caution ? "! " : "- ",
                                                remark.text, remark.code),
                                    "", "  ");
        text += sources(field);
    }
    text += "\nBefore you use these figures\n";
    for (const std::string& caution : cautions()) text += wrapped(caution, "  - ", "    ");
    return text;
}

}  // namespace soilhold::report
