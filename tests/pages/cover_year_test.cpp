// The page of the year as a picture: all in its box, nothing on one another, one scale, the same in grey.
#include "report/cover_year.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "program.h"
#include "report/cautions.h"
#include "report/farmed_field.h"
#include "report/paint_cairo.h"

namespace soilhold::pages {
namespace {

using program::Folder;
using program::slurp;
using report::Colour;
using report::CoverOfField;
using testing::HasSubstr;
using testing::Not;

struct Case {
    std::string name;
    change::Comparison comparison;
    std::vector<CoverOfField> fields;
};

/// Rotations of one, two and three years, of mixed length, and with more to say than fits.
const std::vector<Case>& cases() {
    static const std::vector<Case> list = [] {
        std::vector<Case> made;
        made.reserve(8);
        const auto add = [&](const std::string& name, const loss::Field& field) {
            made.push_back({name, report::estimated({field}), {}});
            made.back().fields = report::cover_of_fields(made.back().comparison);
        };
        add("two years", report::plowed_field());
        add("years of mixed length", report::plowed_field(true));
        add("one year alone", report::farmed_field("Hill", "continuous corn, spring plow"));
        loss::Field three = report::farmed_field("Dale", "corn-soybean-winter wheat, fall chisel");
        report::add_way(three, "no-till", rotation::no_till(three.rotation->rotation));
        add("three years", three);
        add("an old stand", report::farmed_field("Sward", "alfalfa"));
        loss::Field wordy = report::plowed_field();
        wordy.name = "The long forty below the old dairy lane, north half, first terrace downwards from the gate";
        for (int i = 0; i < 7; ++i) {
            wordy.changes.push_back(wordy.changes[static_cast<std::size_t>(i) % 3]);
            wordy.changes.back().name =
                "a way to farm with quite a long name that goes on and on, number " + std::to_string(i);
        }
        add("wordy", wordy);
        return made;
    }();
    return list;
}

report::PageSettings settings(report::Paper paper = report::Paper::letter) {
    return {paper == report::Paper::letter ? units::System::us : units::System::metric, paper, "2026-04-18", "0.1.0"};
}

report::Scene scene_of(const Case& one, report::Paper paper = report::Paper::letter) {
    return report::cover_scene(one.fields[0], settings(paper), report::measure_open_sans());
}

template <class Kind>
std::vector<Kind> marks_of(const report::Scene& scene) {
    std::vector<Kind> marks;
    for (const auto& group : scene.groups)
        for (const auto& mark : group.marks)
            if (const auto* one = std::get_if<Kind>(&mark)) marks.push_back(*one);
    return marks;
}

TEST(CoverYear, LeavesNoTwoTextsOnOneAnotherAndNoneOutsideThePage) {
    const report::Measure measure = report::measure_open_sans();
    for (const Case& one : cases())
        for (const auto paper : {report::Paper::letter, report::Paper::A4}) {
            const report::Scene scene = scene_of(one, paper);
            const auto texts = marks_of<report::Text>(scene);
            for (std::size_t i = 0; i < texts.size(); ++i) {
                const report::Box a = box_of(texts[i], measure);
                EXPECT_GE(a.left, report::page_margin - 9) << one.name << ": " << texts[i].words;
                EXPECT_LE(a.right, scene.width - report::page_margin + 9) << one.name << ": " << texts[i].words;
                EXPECT_GE(texts[i].size, 8.0);
                EXPECT_LE(a.bottom, scene.height - 20);
                for (std::size_t j = i + 1; j < texts.size(); ++j) {
                    const report::Box b = box_of(texts[j], measure);
                    const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
                    const double down = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
                    EXPECT_FALSE(across > 0.5 && down > 2.5)
                        << one.name << ": '" << texts[i].words << "' on '" << texts[j].words << "'";
                }
            }
        }
}

TEST(CoverYear, KeepsEverythingDrawnOnThePaper) {
    for (const Case& one : cases()) {
        const report::Scene scene = scene_of(one);
        const auto inside = [&](const report::Point& point) {
            return point.x >= 20 && point.x <= scene.width - 20 && point.y >= 20 && point.y <= scene.height - 20;
        };
        for (const auto& line : marks_of<report::Line>(scene))
            EXPECT_TRUE(inside(line.from) && inside(line.to)) << one.name;
        for (const auto& area : marks_of<report::Area>(scene))
            for (const auto& point : area.outline) EXPECT_TRUE(inside(point)) << one.name;
    }
}

double height_of(const report::Area& area) {
    const auto [low, high] = std::minmax_element(area.outline.begin(), area.outline.end(),
                                                 [](const auto& a, const auto& b) { return a.y < b.y; });
    return high->y - low->y;
}

TEST(CoverYear, DrawsLossesOfAllWaysOnOneScale) {
    const Case& one = cases()[0];
    const auto content = report::cover_content(one.fields[0], {units::System::us, "2026-04-18", "0.1.0"}, {}, 3, 120);
    const report::YearPicture& picture = content.parts[0].year;
    ASSERT_EQ(picture.strips.size(), 3U);
    report::Group group;
    report::draw_year_strips(group, picture, {0, 0}, 512, {11}, {8.5}, report::measure_open_sans());
    std::vector<double> drawn;  // without the key's swatch, the last
    for (const auto& mark : group.marks)
        if (const auto* area = std::get_if<report::Area>(&mark))
            if (area->fill == Colour::earth) drawn.push_back(height_of(*area));
    ASSERT_GT(drawn.size(), 10U);
    drawn.pop_back();
    std::vector<double> losses;
    for (const auto& strip : picture.strips)
        for (const auto& panel : strip.panels)
            for (const auto& bar : panel.bars) losses.push_back(bar.loss);
    // the bars too low to be drawn are the smallest
    std::sort(losses.rbegin(), losses.rend());
    std::sort(drawn.rbegin(), drawn.rend());
    ASSERT_LE(drawn.size(), losses.size());
    for (std::size_t i = 0; i < drawn.size(); ++i)
        EXPECT_NEAR(drawn[i] / drawn[0], losses[i] / losses[0], 1e-6) << "a bar's height is its tons";
}

TEST(CoverYear, BarsOfAYearAddUpToTheTonsOfTheHeading) {
    const Case& one = cases()[0];
    const auto content =
        report::cover_content(one.fields[0], {units::System::metric, "2026-04-18", "0.1.0"}, {}, 3, 120);
    for (std::size_t i = 0; i < 3; ++i) {
        double sum = 0;
        for (const auto& panel : content.parts[0].year.strips[i].panels)
            for (const auto& bar : panel.bars) sum += bar.loss;
        EXPECT_NEAR(sum / 2, one.fields[0].ways[i].loss.central, 1e-9);
    }
}

TEST(CoverYear, ReadsInGrey) {
    // On an old copier cover is light, and what leaves is dark; rain is strokes that hang, never an area.
    EXPECT_GT(luminance_of(Colour::straw), luminance_of(Colour::earth) + 0.25);
    EXPECT_GT(luminance_of(Colour::tint), luminance_of(Colour::straw) + 0.3);
    for (const Case& one : cases())
        for (const auto& area : marks_of<report::Area>(scene_of(one))) EXPECT_NE(area.fill, Colour::water) << one.name;
}

TEST(CoverYear, NamesTheWorkAndSaysEveryCaution) {
    for (const Case& one : cases()) {
        std::string said;
        for (const auto& text : marks_of<report::Text>(scene_of(one))) said += text.words + " ";
        for (const std::string& caution : report::cautions()) {
            std::istringstream words(caution);
            for (std::string word; words >> word;) EXPECT_THAT(said, HasSubstr(word)) << one.name;
        }
        EXPECT_THAT(said, HasSubstr("Ground")) << one.name;
    }
    std::string said;
    for (const auto& text : marks_of<report::Text>(scene_of(cases()[0]))) said += text.words + " ";
    for (const char* words : {"moldboard plow", "corn harvested", "chisel plow", "Year 2 of 2", "No-till", "t/ac"})
        EXPECT_THAT(said, HasSubstr(words));
}

TEST(CoverYear, SaysHowManyWaysItLeavesOutAndKeepsThoseThatLoseLeast) {
    const Case& wordy = cases().back();
    const auto content = report::cover_content(wordy.fields[0], {units::System::us, "2026-04-18", "0.1.0"}, {}, 2, 100);
    ASSERT_EQ(content.parts[0].year.strips.size(), 2U);
    EXPECT_THAT(content.parts[0].remarks.back(), HasSubstr("8 more ways"));
    double least = 1e9;
    for (const auto& way : wordy.fields[0].ways) least = std::min(least, way.loss.central);
    double sum = 0;
    for (const auto& panel : content.parts[0].year.strips[1].panels)
        for (const auto& bar : panel.bars) sum += bar.loss;
    EXPECT_NEAR(sum / 2 * units::t_ha_per_ton_acre, least, 1e-6);
}

TEST(CoverYear, IsTheSameInEveryFormAndEveryTime) {
    const Case& one = cases()[0];
    for (const char* ending : {".pdf", ".png", ".svg", ".html"})
        EXPECT_EQ(report::cover_page(one.fields[0], settings(), ending),
                  report::cover_page(one.fields[0], settings(), ending));
    EXPECT_THROW(report::cover_page(one.fields[0], settings(), ".gif"), std::invalid_argument);
    const std::string html = report::cover_page(one.fields[0], settings(), ".html");
    EXPECT_THAT(html, HasSubstr("<h1>Of Wether Fold"));
    EXPECT_THAT(html, HasSubstr("<th scope=\"row\">Year 1 of 2, 16 April</th>"));
    EXPECT_THAT(html, Not(HasSubstr("<script")));
    EXPECT_THAT(html, Not(HasSubstr("http")));
    Folder folder;
    std::ofstream(folder.path + "/year.pdf", std::ios::binary) << report::cover_page(one.fields[0], settings(), ".pdf");
    const std::string command = "pdfinfo " + folder.path + "/year.pdf > " + folder.path + "/said && pdftotext " +
                                folder.path + "/year.pdf " + folder.path + "/text";
    ASSERT_EQ(std::system(command.c_str()), 0);
    EXPECT_THAT(slurp(folder.path + "/said"), testing::ContainsRegex("Pages: +1\n"));
    EXPECT_THAT(slurp(folder.path + "/text"), HasSubstr("What another way to farm does in those weeks"));
}

TEST(YearFlags, CoverNoOtherWords) {
    const report::Measure measure = report::measure_open_sans();
    std::vector<report::YearFlag> flags;
    for (std::size_t i = 0; i < 24; i += 2) flags.push_back({i, "field cultivator, corn planted"});
    const auto placed = report::placed_flags(flags, 100, 320, 8.5, measure, 40);
    ASSERT_EQ(placed.size(), flags.size());
    for (std::size_t i = 0; i < placed.size(); ++i) {
        EXPECT_GE(placed[i].left, 100 - 0.01);
        EXPECT_LE(placed[i].right, 320 + 1.01);
        EXPECT_FALSE(placed[i].level == 0 && placed[i].left < 140) << "the year's own heading";
        for (std::size_t j = i + 1; j < placed.size(); ++j)
            EXPECT_FALSE(placed[i].left < placed[j].right && placed[j].left < placed[i].right &&
                         placed[i].level < placed[j].top() && placed[j].level < placed[i].top())
                << i << " on " << j;
    }
}

}  // namespace
}  // namespace soilhold::pages
