#include "report/page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "loss/made_field.h"
#include "report/cautions.h"
#include "report/page_content.h"
#include "report/paint_cairo.h"

namespace soilhold::report {
namespace {

const PageSettings settings{units::System::us, Paper::letter, "2026-04-18", "0"};

change::Comparison one_untested_field() {
    change::Comparison comparison;
    loss::FieldEstimate field;
    field.field.name = "Made-up field";
    field.loss = {20.0, 12.0, 31.0};
    field.loss_without_tests = field.loss;
    field.tolerance = 11.2;
    field.doubt = {{"cover factor C", 0.7}};
    comparison.fields.push_back(field);
    return comparison;
}

TEST(Page, TheSamePageGivesTheSameBytes) {
    const std::string first = page_pdf(one_untested_field(), 0, settings);
    EXPECT_EQ(first.substr(0, 5), "%PDF-");
    EXPECT_EQ(first, page_pdf(one_untested_field(), 0, settings));
}

TEST(Page, HtmlFetchesNothingAndCarriesEveryCaution) {
    const std::string html = page_html(one_untested_field(), 0, settings);
    EXPECT_EQ(html.find("<script"), std::string::npos);
    EXPECT_EQ(html.find("https:"), std::string::npos);
    EXPECT_EQ(html.find(" src="), std::string::npos);
    for (const std::string& caution : cautions()) EXPECT_THAT(html, testing::HasSubstr(caution));
}

TEST(Page, TextStaysInsideTheMarginsAndNoneIsBelowEightPoints) {
    const Measure measure = measure_open_sans();
    const Scene scene = page_scene(one_untested_field(), 0, settings, measure);
    for (const Group& group : scene.groups)
        for (const Mark& mark : group.marks) {
            const Text* text = std::get_if<Text>(&mark);
            if (!text) continue;
            const double width = measure(text->words, text->size, text->bold);
            const double left = text->at.x - (text->anchor == Anchor::end      ? width
                                              : text->anchor == Anchor::middle ? width / 2
                                                                               : 0.0);
            EXPECT_GE(left, page_margin - 1.0) << text->words;
            EXPECT_LE(left + width, scene.width - page_margin + 1.0) << text->words;
            EXPECT_LE(text->at.y, scene.height - page_margin + 4.0) << text->words;
            EXPECT_GE(text->size, 8.0) << text->words;
        }
}

TEST(Page, ADateOutOfFormIsRefused) {
    PageSettings wrong = settings;
    wrong.date = "yesterday";
    EXPECT_THROW(page_pdf(one_untested_field(), 0, wrong), std::invalid_argument);
}

TEST(Page, AListOfSourcesLongerThanTheSheetIsCutNotRefused) {
    change::Comparison comparison = one_untested_field();
    std::string endless;
    for (int i = 0; i < 900; ++i) endless += "a sheet of the office and ";
    loss::FactorValue rain;
    rain.symbol = "R";
    rain.origin.from = endless;
    comparison.fields[0].factors.push_back(rain);
    const Scene scene = page_scene(comparison, 0, settings, measure_open_sans());
    std::string words;
    for (const Group& group : scene.groups)
        for (const Mark& mark : group.marks)
            if (const Text* text = std::get_if<Text>(&mark)) words += text->words + " ";
    EXPECT_THAT(words, testing::HasSubstr("--explain"));
}

TEST(Page, OfAnUnfairPairDrawsBothFieldsOnOneScale) {
    loss::Field other = loss::made_field("Small", 0.02);
    other.map_unit = "another soil";
    other.texture_class = "clay";
    const change::Comparison comparison = change::compare({loss::made_field("Large", 0.6), other}, {});
    ASSERT_FALSE(comparison.pairs[0].ratio.has_value());
    const PageContent content = content_of(comparison, comparison.pairs[0], {units::System::us, "2026-04-18", ""}, {});
    std::vector<double> reaches;
    for (const PagePart& part : content.parts)
        if (!part.bars.rows.empty()) reaches.push_back(reach_of(part.bars));
    ASSERT_EQ(reaches.size(), 2U);
    EXPECT_EQ(reaches[0], reaches[1]);
}

}  // namespace
}  // namespace soilhold::report
