// The handout as paper: what other programs find in the file, and what a reader must be able to rely on.
#include "pages/handout.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "program.h"
#include "report/cautions.h"
#include "report/page.h"
#include "report/page_content.h"
#include "report/paint_cairo.h"
#include "report/words.h"

namespace soilhold::pages {
namespace {

using program::Folder;
using program::slurp;
using report::PageSettings;
using testing::HasSubstr;
using testing::Not;

PageSettings settings(report::Paper paper = report::Paper::letter, units::System system = units::System::us) {
    return {system, paper, "2026-04-18", "0.1.0"};
}

/// What a program of the machine prints about a file holding these bytes.
std::string seen_by(const std::string& command, const std::string& bytes, const std::string& after = "") {
    Folder folder;
    std::ofstream(folder.path + "/file", std::ios::binary) << bytes;
    const std::string line =
        command + " " + folder.path + "/file " + after + " > " + folder.path + "/said 2> " + folder.path + "/error";
    if (std::system(line.c_str()) != 0) throw std::runtime_error(line + ": " + slurp(folder.path + "/error"));
    return slurp(folder.path + "/said");
}

std::string on_one_line(const std::string& text) {
    std::string result;
    for (const char c : text) {
        const bool space = std::isspace(static_cast<unsigned char>(c)) != 0;
        if (!space)
            result += c;
        else if (!result.empty() && result.back() != ' ')
            result += ' ';
    }
    return result;
}

struct Case {
    std::string name, pdf, html;
    report::Scene scene;
};

/// Every kind of handout on both papers.
const std::vector<Case>& cases() {
    static const std::vector<Case> list = [] {
        std::vector<Case> made;
        const report::Measure measure = report::measure_open_sans();
        for (const auto paper : {report::Paper::letter, report::Paper::A4}) {
            const auto with = settings(paper, paper == report::Paper::A4 ? units::System::metric : units::System::us);
            const std::string size = paper == report::Paper::A4 ? " on A4" : " on Letter";
            for (const auto& [name, comparison] :
                 {std::pair("a fair pair", fair()), std::pair("an unfair pair", unfair()),
                  std::pair("a wordy pair", wordy())})
                made.push_back({name + size, report::page_pdf(comparison, comparison.pairs[0], with),
                                report::page_html(comparison, comparison.pairs[0], with),
                                report::page_scene(comparison, comparison.pairs[0], with, measure)});
            for (const auto& [name, comparison] : {std::pair("a field", fair()), std::pair("a bare field", bare())})
                made.push_back({name + size, report::page_pdf(comparison, 0, with),
                                report::page_html(comparison, 0, with),
                                report::page_scene(comparison, 0, with, measure)});
        }
        return made;
    }();
    return list;
}

std::vector<report::Text> texts_of(const report::Scene& scene) {
    std::vector<report::Text> texts;
    for (const auto& group : scene.groups)
        for (const auto& mark : group.marks)
            if (const auto* text = std::get_if<report::Text>(&mark)) texts.push_back(*text);
    return texts;
}

TEST(Handout, SaysTheSentenceInTextThatCanBeSearched) {
    const auto comparison = fair();
    const std::string text =
        on_one_line(seen_by("pdftotext", report::page_pdf(comparison, comparison.pairs[0], settings()), "-"));
    EXPECT_THAT(text, HasSubstr(report::ratio_sentence(*comparison.pairs[0].ratio, "Hill", "Dale")));
    EXPECT_THAT(text, HasSubstr("15 of 18 clods of Dale held in water; none of 18 of Hill did."));
}

TEST(Handout, IsOnePageWithATitleAndADate) {
    for (const Case& one : cases()) {
        const std::string info = seen_by("pdfinfo -isodates", one.pdf);
        EXPECT_THAT(info, testing::ContainsRegex("Pages: +1\n")) << one.name;
        EXPECT_THAT(info, testing::ContainsRegex("CreationDate: +2026-04-18")) << one.name;
        EXPECT_THAT(info, testing::ContainsRegex("Title: +[A-Z]")) << one.name;
    }
}

TEST(Handout, CarriesItsTypefaceWithin) {
    for (const Case& one : cases()) {
        std::istringstream fonts(seen_by("pdffonts", one.pdf));
        std::string line;
        int count = 0;
        std::getline(fonts, line);
        const std::size_t column = line.find("emb");
        std::getline(fonts, line);
        while (std::getline(fonts, line)) {
            EXPECT_THAT(line, HasSubstr("OpenSans")) << one.name;
            EXPECT_EQ(line.substr(column, 3), "yes") << one.name << ": " << line;
            ++count;
        }
        EXPECT_GE(count, 2) << one.name;
    }
}

TEST(Handout, ComesOutTheSameByteForByte) {
    const auto comparison = fair();
    const auto& pair = comparison.pairs[0];
    EXPECT_EQ(report::page_pdf(comparison, pair, settings()), report::page_pdf(comparison, pair, settings()));
    EXPECT_EQ(report::page_png(comparison, pair, settings()), report::page_png(comparison, pair, settings()));
    EXPECT_EQ(report::page_html(comparison, pair, settings()), report::page_html(comparison, pair, settings()));
}

TEST(Handout, LeavesNoTwoTextsOnOneAnother) {
    const report::Measure measure = report::measure_open_sans();
    for (const Case& one : cases()) {
        const auto texts = texts_of(one.scene);
        for (std::size_t i = 0; i < texts.size(); ++i)
            for (std::size_t j = i + 1; j < texts.size(); ++j) {
                const report::Box a = box_of(texts[i], measure), b = box_of(texts[j], measure);
                const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
                const double down = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
                EXPECT_FALSE(across > 0.5 && down > 0.5)
                    << one.name << ": '" << texts[i].words << "' and '" << texts[j].words << "'";
            }
    }
}

TEST(Handout, KeepsItsTextInsideTheMargins) {
    const report::Measure measure = report::measure_open_sans();
    for (const Case& one : cases())
        for (const report::Text& text : texts_of(one.scene)) {
            const report::Box box = box_of(text, measure);
            EXPECT_GE(box.left, report::page_margin - 0.5) << one.name << ": " << text.words;
            EXPECT_LE(box.right, one.scene.width - report::page_margin + 0.5) << one.name << ": " << text.words;
            EXPECT_GE(box.top, report::page_margin - 9) << one.name << ": " << text.words;
            EXPECT_LE(box.bottom, one.scene.height - report::page_margin + 0.5) << one.name << ": " << text.words;
        }
}

TEST(Handout, IsSetInOneFaceAndAtMostThreeSizesOfAtLeastEightPoints) {
    for (const Case& one : cases()) {
        std::set<double> sizes;
        for (const report::Text& text : texts_of(one.scene)) sizes.insert(text.size);
        EXPECT_LE(sizes.size(), 3U) << one.name;
        EXPECT_GE(*sizes.begin(), 8.0) << one.name;
    }
}

TEST(Handout, CarriesEveryCaution) {
    for (const Case& one : cases()) {
        const std::string text = on_one_line(seen_by("pdftotext -raw", one.pdf, "-"));
        for (const std::string& caution : report::cautions()) {
            EXPECT_THAT(text, HasSubstr(caution)) << one.name;
            EXPECT_THAT(one.html, HasSubstr(caution)) << one.name;
        }
    }
}

TEST(Handout, TellsItsAreasApartWithoutColour) {
    for (const Case& one : cases()) {
        std::vector<report::Area> areas;
        for (const auto& group : one.scene.groups)
            for (const auto& mark : group.marks)
                if (const auto* area = std::get_if<report::Area>(&mark)) areas.push_back(*area);
        for (const auto& a : areas)
            for (const auto& b : areas) {
                if (a.fill == b.fill || !a.fill || !b.fill) continue;
                const double apart = std::abs(report::luminance_of(*a.fill) - report::luminance_of(*b.fill));
                EXPECT_TRUE(a.hatch.has_value() != b.hatch.has_value() || apart > 0.2) << one.name;
            }
    }
}

TEST(Handout, DrawsNoRatioForAPairThatIsNotFair) {
    const auto comparison = unfair();
    const std::string text =
        on_one_line(seen_by("pdftotext", report::page_pdf(comparison, comparison.pairs[0], settings()), "-"));
    EXPECT_THAT(text, HasSubstr("No comparison is drawn between Hill and Dale."));
    EXPECT_THAT(text, Not(HasSubstr("as fast as")));
    EXPECT_THAT(text, HasSubstr("Hill loses about"));
    EXPECT_THAT(text, HasSubstr("Dale loses about"));
    EXPECT_THAT(text, HasSubstr(comparison.pairs[0].fairness.reasons[0].redo));
    // Each field has a scale of its own.
    int zeros = 0;
    const auto scene = report::page_scene(comparison, comparison.pairs[0], settings(), report::measure_open_sans());
    for (const report::Text& one : texts_of(scene)) zeros += one.words == "0" ? 1 : 0;
    EXPECT_EQ(zeros, 2);
}

TEST(Handout, OfAPairStandsOnOneScale) {
    const auto comparison = fair();
    int zeros = 0;
    const auto scene = report::page_scene(comparison, comparison.pairs[0], settings(), report::measure_open_sans());
    for (const report::Text& one : texts_of(scene)) zeros += one.words == "0" ? 1 : 0;
    EXPECT_EQ(zeros, 1);
}

TEST(Handout, SaysHowManyChangesItLeavesOut) {
    const auto comparison = wordy();
    const std::string text =
        on_one_line(seen_by("pdftotext -raw", report::page_pdf(comparison, comparison.pairs[0], settings()), "-"));
    EXPECT_THAT(text, testing::ContainsRegex("We worked out [0-9]+ more changes"));
}

TEST(Handout, SaysWhoseEachValueIs) {
    for (const Case& one : cases()) {
        const std::string text = on_one_line(seen_by("pdftotext -raw", one.pdf, "-"));
        EXPECT_THAT(text, HasSubstr("Where the values come from: Your figure")) << one.name;
        EXPECT_THAT(text, HasSubstr("Our assumption")) << one.name;      // the default ranges
        EXPECT_THAT(text, HasSubstr("Read in the source")) << one.name;  // the slope rule
        EXPECT_THAT(text, HasSubstr("AH 703 LS")) << one.name;
    }
}

TEST(Handout, HasALineForTheOfficeWhenNoneIsNamed) {
    const auto comparison = bare();
    const std::string text = on_one_line(seen_by("pdftotext", report::page_pdf(comparison, 0, settings()), "-"));
    EXPECT_THAT(text, HasSubstr("Your local office:"));
    EXPECT_THAT(text, HasSubstr("Phone:"));
}

TEST(Handout, UsesNoWordsOfTheTrade) {
    for (const Case& one : cases()) {
        const std::string text = seen_by("pdftotext", one.pdf, "-");
        for (const char* word : {"erosivity", "erodibility", "K factor", "detachment", "C factor"})
            EXPECT_THAT(text, Not(HasSubstr(word))) << one.name;
    }
}

TEST(Handout, AsSvgIsWellFormed) {
    const auto comparison = fair();
    const std::string svg = report::page_svg(comparison, comparison.pairs[0], settings());
    EXPECT_NO_THROW(seen_by("python3 -c 'import sys,xml.dom.minidom;xml.dom.minidom.parse(sys.argv[1])'", svg));
    EXPECT_THAT(svg, HasSubstr("<text "));
}

TEST(Handout, AsPngIsAPictureOfThePage) {
    const auto comparison = fair();
    const std::string png = report::page_png(comparison, comparison.pairs[0], settings());
    ASSERT_GT(png.size(), 24U);
    EXPECT_EQ(png.substr(1, 3), "PNG");
    // width and height of the header chunk, in pixels: Letter at two pixels a point
    const auto number = [&](std::size_t at) {
        unsigned value = 0;
        for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(png[at + i]);
        return value;
    };
    EXPECT_EQ(number(16), 1224U);
    EXPECT_EQ(number(20), 1584U);
}

TEST(Handout, AsHtmlNeedsNothingFromElsewhere) {
    for (const Case& one : cases()) {
        EXPECT_THAT(one.html, Not(HasSubstr("http"))) << one.name;
        EXPECT_THAT(one.html, Not(HasSubstr("<script"))) << one.name;
        EXPECT_THAT(one.html, Not(HasSubstr(" src="))) << one.name;
        EXPECT_THAT(one.html, Not(HasSubstr("<link"))) << one.name;
        for (std::size_t at = one.html.find("url("); at != std::string::npos; at = one.html.find("url(", at + 1))
            EXPECT_EQ(one.html.substr(at + 4, 5), "data:") << one.name;
    }
}

TEST(Handout, AsHtmlSaysAllThatThePaperSays) {
    const auto comparison = fair();
    const std::string html = report::page_html(comparison, comparison.pairs[0], settings());
    const auto content =
        report::content_of(comparison, comparison.pairs[0], {units::System::us, "2026-04-18", "0.1.0"}, {});
    for (const report::PagePart& part : content.parts)
        for (const auto* texts : {&part.before, &part.list, &part.after, &part.remarks})
            for (const std::string& text : *texts) EXPECT_THAT(html, HasSubstr(text));
    EXPECT_THAT(html, HasSubstr(content.sources));
}

TEST(Handout, AsHtmlIsTextThatAScreenReaderCanWalk) {
    for (const Case& one : cases()) {
        EXPECT_THAT(one.html, HasSubstr("<h1>")) << one.name;
        EXPECT_THAT(one.html, HasSubstr("<table>")) << one.name;
        EXPECT_THAT(one.html, HasSubstr("lang=\"en\"")) << one.name;
        // It is written as XML would be, so that an XML parser finds every tag closed and no id twice.
        EXPECT_NO_THROW(
            seen_by("python3 -c 'import sys,xml.dom.minidom as m;"
                    "t=open(sys.argv[1]).read().split(\"\\n\",1)[1];d=m.parseString(t);"
                    "i=[e.getAttribute(\"id\") for e in d.getElementsByTagName(\"*\") if "
                    "e.hasAttribute(\"id\")];assert len(i)==len(set(i))'",
                    one.html))
            << one.name;
    }
}

}  // namespace
}  // namespace soilhold::pages
