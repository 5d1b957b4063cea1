#include "report/cover_year.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "report/cover_report.h"
#include "report/embedded_font.h"
#include "report/page_html.h"
#include "report/page_words.h"
#include "report/paint_cairo.h"
#include "report/paint_svg.h"
#include "report/words.h"
#include "units/printing.h"

namespace soilhold::report {

namespace {

using rotation::Calendar;
using rotation::CalendarRow;
using units::Kind;
using units::System;

/// What a flag says: seeding and harvest first, then tools; not the planter of what is planted, nor falling leaves.
std::string flag_words(const std::vector<std::string>& happenings) {
    std::vector<std::string> crops, tools;
    for (const std::string& one : happenings) {
        if (one.find("drops its leaves") != std::string::npos) continue;
        const bool crop = one.ends_with(" planted") || one.ends_with(" harvested") || one.ends_with(" ended");
        (crop ? crops : tools).push_back(one);
    }
    const bool planted =
        std::any_of(crops.begin(), crops.end(), [](const std::string& one) { return one.ends_with("planted"); });
    std::vector<std::string> said;
    for (const auto* list : {&crops, &tools})
        for (const std::string& one : *list) {
            const bool plants = one.ends_with("planter") || one.ends_with("drill");
            if ((!planted || !plants) && std::find(said.begin(), said.end(), one) == said.end()) said.push_back(one);
        }
    std::string text;
    for (const std::string& one : said) text += (text.empty() ? "" : ", ") + one;
    return text;
}

/// Day and month, number and unit stay on one line.
std::string with_whole_dates(std::string text) {
    for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1)) {
        const bool number = at > 0 && text[at - 1] >= '0' && text[at - 1] <= '9';
        const char next = at + 1 < text.size() ? text[at + 1] : ' ';
        if (number && (next == '%' || (next >= 'A' && next <= 'Z'))) text.replace(at, 1, "\xc2\xa0");
    }
    return text;
}

/// Years of the rotation that stand side by side; 0 for their mean.
int years_beside(const CoverOfField& field) {
    const int years = field.ways.front().cover.calendar.years;
    const bool alike = std::all_of(field.ways.begin(), field.ways.end(),
                                   [&](const CoverWay& way) { return way.cover.calendar.years == years; });
    return alike && years <= 3 ? years : 0;
}

YearBar bar_of(const CoverWay& way, const CalendarRow& row, System system) {
    const Calendar& calendar = way.cover.calendar;
    YearBar bar;
    bar.ground = row.cover_pct / 100.0;
    bar.shade = shielded(row) - bar.ground;
    // Tons of this very year: an average year has one of them in so many.
    bar.loss =
        units::in_unit(Kind::soil_loss, way.loss.central, system) * share_of_loss(calendar, row) * calendar.years;
    bar.rain = row.erosivity_share * calendar.years;
    return bar;
}

std::vector<YearPanel> panels_of(const CoverWay& way, int beside, System system) {
    const Calendar& calendar = way.cover.calendar;
    const double years = calendar.years;
    std::vector<YearPanel> panels(beside > 0 ? static_cast<std::size_t>(beside) : 1);
    for (YearPanel& panel : panels) panel.bars.resize(24);
    for (const CalendarRow& row : calendar.rows) {
        YearPanel& panel = panels[beside > 0 ? static_cast<std::size_t>(row.year - 1) : 0];
        YearBar& bar = panel.bars[row.half_month];
        const YearBar one = bar_of(way, row, system);
        const double weight = beside > 0 ? 1.0 : 1.0 / years;
        bar.ground += weight * one.ground;
        bar.shade += weight * one.shade;
        bar.loss += weight * one.loss;
        bar.rain += weight * one.rain;
        // Over the mean of many years every tool would be a flag: the table has them.
        const std::string words = flag_words(row.happenings);
        if (!words.empty() && (beside > 0 || calendar.years == 1)) panel.flags.push_back({row.half_month, words});
    }
    if (beside > 1)
        for (std::size_t i = 0; i < panels.size(); ++i)
            panels[i].heading = fmt::format("Year {} of {}", i + 1, panels.size());
    return panels;
}

std::string amount_of(const CoverWay& way, System system) {
    return fmt::format("{} {} in an average year (likely {} to {})", tons(way.loss.central, system), loss_unit(system),
                       tons(way.loss.low, system), tons(way.loss.high, system));
}

std::string name_of(const CoverWay& way, std::size_t letters) {
    std::string name = way.as_now && !way.rotation.empty() ? "As now: " + way.rotation : capital(way.name);
    return shortened(name, letters);
}

/// Flags that the first strip has in the same half-month would say it again.
void keep_what_differs(YearStrip& strip, const YearStrip& first) {
    for (std::size_t i = 0; i < std::min(strip.panels.size(), first.panels.size()); ++i)
        std::erase_if(strip.panels[i].flags, [&](const YearFlag& flag) {
            return std::any_of(first.panels[i].flags.begin(), first.panels[i].flags.end(), [&](const YearFlag& known) {
                return known.half_month == flag.half_month && known.words == flag.words;
            });
        });
}

/// As now and the ways that lose least, in the order given.
CoverOfField best_of(const CoverOfField& field, std::size_t most_ways) {
    CoverOfField best = field;
    while (best.ways.size() > std::max<std::size_t>(1, most_ways))
        best.ways.erase(std::max_element(best.ways.begin() + 1, best.ways.end(),
                                         [](const auto& a, const auto& b) { return a.loss.central < b.loss.central; }));
    return best;
}

YearPicture picture_of(const CoverOfField& field, System system, const PageLimits& limits, double band_height) {
    YearPicture picture;
    picture.unit = loss_unit(system);
    picture.band_height = band_height;
    const Season season = season_of_loss(field.ways.front().cover.calendar);
    picture.season_first = season.first;
    picture.season_count = season.count;
    picture.season = fmt::format("{} to {}", date_of(season.first), date_of(season.first + season.count - 1, true));
    const int beside = years_beside(field);
    for (std::size_t i = 0; i < field.ways.size(); ++i)
        picture.strips.push_back({name_of(field.ways[i], limits.name_letters), amount_of(field.ways[i], system),
                                  panels_of(field.ways[i], beside, system)});
    for (std::size_t i = 1; i < picture.strips.size(); ++i) keep_what_differs(picture.strips[i], picture.strips[0]);
    return picture;
}

/// Half-months down, rain and then cover and loss of each way across.
std::vector<std::vector<std::string>> table_of(const YearPicture& picture) {
    std::vector<std::vector<std::string>> rows(1);
    rows[0] = {"From", "Rain\xe2\x80\x99s force"};
    const std::size_t panels = picture.strips.front().panels.size();
    for (const YearStrip& strip : picture.strips) {
        rows[0].push_back(strip.name + ": ground covered");
        rows[0].push_back("soil that leaves");
    }
    for (std::size_t year = 0; year < panels; ++year)
        for (std::size_t i = 0; i < 24; ++i) {
            const std::string& heading = picture.strips.front().panels[year].heading;
            std::vector<std::string> row = {(heading.empty() ? "" : heading + ", ") + date_of(i),
                                            fmt::format("{:.1f} %", 100 * picture.strips[0].panels[year].bars[i].rain)};
            for (const YearStrip& strip : picture.strips) {
                const YearBar& bar = strip.panels[year].bars[i];
                row.push_back(fmt::format("{:.0f} %", 100 * (bar.ground + bar.shade)));
                row.push_back(fmt::format("{:.2f} {}", bar.loss, picture.unit));
            }
            rows.push_back(std::move(row));
        }
    return rows;
}

std::string alt_of(const CoverOfField& field, const YearPicture& picture) {
    std::string text =
        "The year from January to December for each way to farm, cover above, rain below, loss between. ";
    for (std::size_t i = 0; i < picture.strips.size(); ++i) {
        const Season season = season_of_loss(field.ways[i].cover.calendar);
        text +=
            fmt::format("{}: {}; {:.0f} % of it between {} and {}. ", picture.strips[i].name, picture.strips[i].amount,
                        100 * season.loss, date_of(season.first), date_of(season.first + season.count - 1, true));
    }
    text.pop_back();
    return text;
}

std::string how_it_reads(const CoverOfField& field, const YearPicture& picture, System system) {
    std::string text = fmt::format(
        "Each bar is half a month. Brown bars show the middle of the range: the {} ({}) that leave in that half "
        "month{}. "
        "The rain is that of an average year, the same for every way to farm.",
        picture.unit, system == System::us ? "US tons an acre" : "tonnes a hectare",
        years_beside(field) > 1 ? " of that year" : "");
    if (years_beside(field) == 0)
        text += " A strip is the mean of the years of its rotation; the table of 'soilhold cover' names the work.";
    else if (picture.strips.size() > 1)
        text += " From the second strip on, only work is named that the first has not.";
    return text;
}

struct Step {
    PageSizes sizes;
    PageLimits limits;
    std::size_t ways;
    double band;
};

/// From roomy to tight.
std::vector<Step> steps_for(std::size_t ways) {
    std::vector<Step> steps;
    for (std::size_t shown = std::min<std::size_t>(ways, 4); shown >= 1; --shown)
        for (const double band : {190.0, 170.0, 150.0, 135.0, 120.0, 108.0, 96.0, 86.0, 76.0, 68.0, 60.0, 54.0})
            for (const bool tight : {false, true}) {
                if (tight && band > 96) continue;
                Step step{{20.0, 11.0, 8.5}, {}, shown, band};
                step.limits.name_letters = tight ? 56 : 60;
                step.limits.source_letters = tight ? (band > 76 ? 500 : 300) : 1200;
                if (band < 120) step.sizes = {18.0, 10.0, 8.25};
                if (tight) step.sizes = band > 76 ? PageSizes{16.0, 9.25, 8.0} : PageSizes{14.0, 8.5, 8.0};
                steps.push_back(step);
            }
    return steps;
}

}  // namespace

PageContent cover_content(const CoverOfField& whole, const PageFacts& facts, const PageLimits& limits,
                          std::size_t most_ways, double band_height) {
    const CoverOfField field = best_of(whole, most_ways);
    PageContent content;
    add_foot(content, {field.estimate}, facts, limits);
    content.headline = with_whole_dates(season_sentence(field));
    PagePart part;
    part.heading = "Through the year: what covers the ground, when the rain is strong, and when the soil leaves";
    part.year = picture_of(field, facts.system, limits, band_height);
    part.year_alt = alt_of(field, part.year);
    part.year_table = table_of(part.year);
    part.remarks.push_back(how_it_reads(field, part.year, facts.system));
    const std::size_t left_out = whole.ways.size() - field.ways.size();
    if (left_out > 0)
        part.remarks.push_back(
            fmt::format("{} more {} to farm it {} not drawn here; the table of 'soilhold cover' has "
                        "them.",
                        left_out, left_out == 1 ? "way" : "ways", left_out == 1 ? "is" : "are"));
    content.parts.push_back(std::move(part));
    std::vector<std::string> ways = way_sentences(field, facts.system);
    if (!ways.empty()) {
        PagePart could;
        could.heading = "What another way to farm does in those weeks";
        could.list = std::move(ways);
        could.half = true;
        content.parts.push_back(std::move(could));
    }
    PagePart unknown;
    unknown.heading = "What these figures don't know";
    unknown.half = true;
    for (const source::Weight weight : {source::Weight::caution, source::Weight::note})
        for (const source::Remark& remark : cover_remarks(field))
            if (remark.weight == weight &&
                (weight == source::Weight::caution || remark.code == "cover-calendar-memory"))
                unknown.remarks.push_back(remark.text);
    if (!unknown.remarks.empty()) content.parts.push_back(std::move(unknown));
    return content;
}

Scene cover_scene(const CoverOfField& field, const PageSettings& settings, const Measure& measure) {
    const PageFacts facts{settings.system, settings.date, settings.program_version};
    for (const Step& step : steps_for(field.ways.size()))
        if (std::optional<Scene> scene = page_layout(cover_content(field, facts, step.limits, step.ways, step.band),
                                                     settings.paper, step.sizes, measure))
            return *scene;
    throw std::length_error("The page has more to say than fits on one sheet: shorten the sources. [page-full]");
}

std::string cover_page(const CoverOfField& field, const PageSettings& settings, const std::string& ending) {
    const Measure measure = measure_open_sans();
    if (ending == ".html")
        return html_of(cover_content(field, {settings.system, settings.date, settings.program_version}, {}, 12, 120.0),
                       settings.paper, measure);
    const Scene scene = cover_scene(field, settings, measure);
    if (ending == ".pdf") return painted_pdf(scene);
    if (ending == ".png") return painted_png(scene, 2.0);
    if (ending != ".svg") throw std::invalid_argument("a page is .pdf, .png, .svg or .html, not " + ending);
    std::string letters;
    for (const Group& group : scene.groups)
        for (const Mark& mark : group.marks)
            if (const Text* text = std::get_if<Text>(&mark)) letters += text->words;
    return paint_svg(scene, font_face_css(letters));
}

}  // namespace soilhold::report
