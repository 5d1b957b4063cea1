#include "report/watershed_map.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "made_map.h"
#include "report/loss_classes.h"
#include "report/map_furniture.h"
#include "report/map_geometry.h"
#include "report/map_labels.h"
#include "report/page_layout.h"
#include "report/paint_cairo.h"
#include "report/paint_svg.h"
#include "report/veil_png.h"

namespace soilhold::report {
namespace {

PageSettings settings_for(Paper paper, units::System system = units::System::us) {
    PageSettings settings;
    settings.paper = paper;
    settings.system = system;
    settings.date = "2026-11-25";
    settings.program_version = "0.1.0";
    return settings;
}

std::vector<Text> texts_of(const Scene& scene) {
    std::vector<Text> texts;
    for (const Group& group : scene.groups)
        for (const Mark& mark : group.marks)
            if (const Text* text = std::get_if<Text>(&mark)) texts.push_back(*text);
    return texts;
}

std::string all_words(const Scene& scene) {
    std::string words;
    for (const Text& text : texts_of(scene)) words += text.words + " ";
    return words;
}

const Group& map_of(const Scene& scene) {
    return *std::find_if(scene.groups.begin(), scene.groups.end(), [](const Group& group) {
        return group.role == Role::figure && group.alt.starts_with("Map of");
    });
}

TEST(WatershedMap, EveryTextLiesOnTheSheetAndNoTwoOverlap) {
    const Measure measure = measure_open_sans();
    for (const Paper paper : {Paper::letter, Paper::A4})
        for (const auto& [columns, rows] : {std::pair{6, 5}, std::pair{3, 11}, std::pair{12, 14}, std::pair{9, 2}}) {
            const Scene scene = watershed_map_scene(made_map(columns, rows), settings_for(paper), measure);
            std::vector<std::pair<Box, std::string>> boxes;
            for (const Text& text : texts_of(scene)) {
                const Box box = box_of(text, measure);
                EXPECT_GE(box.left, page_margin - 1) << text.words;
                EXPECT_LE(box.right, scene.width - page_margin + 1) << text.words;
                EXPECT_GE(box.top, 30) << text.words;
                EXPECT_LE(box.bottom, scene.height - 30) << text.words;
                // Lines of a paragraph stand closer than the room their tallest letters may take.
                const double slack = 0.2 * text.size;
                for (const auto& [other, words] : boxes)
                    EXPECT_FALSE(overlap({box.left, box.top + slack, box.right, box.bottom - slack},
                                         {other.left, other.top + slack, other.right, other.bottom - slack}))
                        << columns << "x" << rows << ": '" << text.words << "' on '" << words << "'";
                boxes.emplace_back(box, text.words);
            }
        }
}

TEST(WatershedMap, TheScaleBarIsTrueToARuler) {
    // A half mile is 2640 ft = 804.672 m; at 1 : 18,000 that is 804.672 / 18000 m = 44.704 mm = 1.76 in on paper.
    EXPECT_NEAR(804.672 / metres_per_point(18000), 1.76 * 72, 1e-9);
    for (const units::System system : {units::System::us, units::System::metric}) {
        const WatershedMap map = made_map();
        const Scene scene = watershed_map_scene(map, settings_for(Paper::letter, system), measure_open_sans());
        // The frame stands for the whole map: what a ruler reads of both must agree.
        const auto* frame = std::get_if<Polyline>(&map_of(scene).marks.back());
        ASSERT_NE(frame, nullptr);
        const double metres_in_point = map.width_m / (frame->points[1].x - frame->points[0].x);
        const auto bar = std::find_if(scene.groups.begin(), scene.groups.end(),
                                      [](const Group& group) { return group.alt.starts_with("Scale bar"); });
        ASSERT_NE(bar, scene.groups.end());
        const Area& first = std::get<Area>(bar->marks[0]);
        const Area& last = std::get<Area>(bar->marks[3]);
        const double length_m = (last.outline[1].x - first.outline[0].x) * metres_in_point;
        const std::string words = std::get<Text>(bar->marks[4]).words;
        const double said_m = words == "1/2 mile" ? 804.672 : words == "1 km" ? 1000 : words == "400 m" ? 400 : 0;
        EXPECT_NEAR(length_m, said_m, 0.5) << words;
    }
}

TEST(WatershedMap, NumbersStandWithinTheirFieldsOrHaveALine) {
    const Measure measure = measure_open_sans();
    const Rings wide = {rectangle(10, 10, 80, 40)};
    const Rings tiny = {rectangle(100, 100, 6, 5)};
    const Rings bent = {{{0, 120}, {60, 120}, {60, 180}, {45, 180}, {45, 135}, {0, 135}}};  // an L, its middle outside
    const auto labels = place_labels({wide, tiny, bent}, {"1", "22", "3"}, {0, 0, 200, 200}, {}, 3, measure);
    ASSERT_EQ(labels.size(), 3U);
    for (const PlacedLabel& label : labels) {
        const Rings& rings = label.field == 0 ? wide : label.field == 1 ? tiny : bent;
        const Point middle{(label.box.left + label.box.right) / 2, (label.box.top + label.box.bottom) / 2};
        if (label.field == 1) {
            ASSERT_TRUE(label.lead.has_value());
            EXPECT_TRUE(is_inside(tiny, label.lead->from));
            EXPECT_FALSE(is_inside(tiny, middle));
            EXPECT_FALSE(is_inside(wide, middle));
        } else {
            EXPECT_FALSE(label.lead.has_value());
            EXPECT_TRUE(is_inside(rings, middle));
            EXPECT_FALSE(edge_enters(rings, label.box));
        }
    }
}

TEST(WatershedMap, ANumberKeepsOffAStreamWhereItCan) {
    const Rings field = {rectangle(0, 0, 100, 60)};
    const std::vector<Point> stream = {{-50, 30}, {150, 30}};
    const auto labels = place_labels({field}, {"7"}, {0, 0, 100, 60}, {stream}, 1, measure_open_sans());
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_FALSE(edge_enters({stream}, labels[0].box));
}

TEST(WatershedMap, AFieldWithoutRoomAnywhereIsCountedAndSaid) {
    WatershedMap map = made_map(12, 14);
    const Scene scene = watershed_map_scene(map, settings_for(Paper::letter), measure_open_sans());
    std::size_t numbers = 0;
    for (const Mark& mark : map_of(scene).marks) numbers += std::holds_alternative<Text>(mark) ? 1U : 0U;
    const std::size_t without = map.fields.size() - numbers;
    const bool said = all_words(scene).find("too small") != std::string::npos;
    EXPECT_EQ(said, without > 0) << without;
}

TEST(WatershedMap, EachClassHasMoreInkThanTheOneBelow) {
    // Ink is what a copier sees: the share of a square that its dots cover, counted dot by dot.
    double last = 0.0;
    for (std::size_t loss_class = 1; loss_class < 5; ++loss_class) {
        const Dots dots = stipple({rectangle(0, 0, 200, 200)}, loss_class);
        const double ink = static_cast<double>(dots.at.size()) * M_PI * dots.radius * dots.radius / 40000.0;
        EXPECT_NEAR(ink, ink_of_class(loss_class), 0.1 * ink_of_class(loss_class));
        EXPECT_GT(ink, 1.6 * last);
        last = ink;
    }
    EXPECT_TRUE(stipple({rectangle(0, 0, 200, 200)}, 0).at.empty());
    EXPECT_LT(last, 0.5) << "the field's number must stay readable";
}

TEST(WatershedMap, TheMarkTIsABreakOfClasses) {
    EXPECT_EQ(class_of_loss(0.999), 1U);
    EXPECT_EQ(class_of_loss(1.0), 2U);
    EXPECT_EQ(class_of_loss(0.0), 0U);
    EXPECT_EQ(class_of_loss(4.0), 4U);
    EXPECT_EQ(class_of_loss(std::nullopt), std::nullopt);
    EXPECT_EQ(class_of_loss(std::nan("")), std::nullopt);
}

TEST(WatershedMap, DotsLieWhollyInTheFieldAndNotInItsHoles) {
    const Rings field = {{{0, 0}, {120, 10}, {90, 80}, {20, 60}}, rectangle(40, 20, 20, 20)};
    const Dots dots = stipple(field, 4);
    EXPECT_GT(dots.at.size(), 300U);
    for (const Point& at : dots.at) {
        EXPECT_TRUE(is_inside(field, at));
        EXPECT_GE(distance_to_edge(field, at), dots.radius);
    }
    const Dots again = stipple(field, 4);
    EXPECT_TRUE(std::equal(dots.at.begin(), dots.at.end(), again.at.begin(), again.at.end(),
                           [](Point a, Point b) { return a.x == b.x && a.y == b.y; }));
}

TEST(WatershedMap, AFieldsHoleIsNotFilled) {
    const Rings field = {rectangle(0, 0, 100, 100), rectangle(40, 40, 20, 20)};
    const std::vector<Point> outline = in_one_outline(field);
    // Winding number by the signed crossings of a ray: 0 in the hole, not 0 around it.
    const auto winding = [&](Point at) {
        int count = 0;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const Point a = outline[i], b = outline[(i + 1) % outline.size()];
            if ((a.y > at.y) == (b.y > at.y)) continue;
            if (at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y)) count += b.y > a.y ? 1 : -1;
        }
        return count;
    };
    EXPECT_EQ(winding({50.5, 51.5}), 0);
    EXPECT_NE(winding({20.5, 71.5}), 0);
}

TEST(WatershedMap, TheListNamesTheFirstTenWithUnitsBesideTheNumbers) {
    const std::string us = all_words(watershed_map_scene(made_map(), settings_for(Paper::letter), measure_open_sans()));
    EXPECT_NE(us.find("The first 10 of 32 fields"), std::string::npos) << us;
    // 5.4 times T of 11.2 t/ha is 60.48 t/ha; an acre's short tons are that / 2.2417 = 26.98.
    EXPECT_NE(us.find("27 t/ac 5.4 T over 99 %"), std::string::npos) << us;
    const std::string metric =
        all_words(watershed_map_scene(made_map(), settings_for(Paper::A4, units::System::metric), measure_open_sans()));
    EXPECT_NE(metric.find("60 t/ha 5.4 T"), std::string::npos) << metric;
    for (const char* word :
         {"The top fifth", "its cover is not known", "gullies", "made soil table", "A bracket joins"})
        EXPECT_NE(us.find(word), std::string::npos) << word;
}

TEST(WatershedMap, TheSheetTurnsWithTheShapeOfTheLand) {
    const Measure measure = measure_open_sans();
    const Scene tall = watershed_map_scene(made_map(3, 11), settings_for(Paper::letter), measure);
    const Scene round = watershed_map_scene(made_map(12, 14), settings_for(Paper::letter), measure);
    EXPECT_LT(tall.width, tall.height);
    for (const Scene* scene : {&tall, &round}) EXPECT_NEAR(scene->width * scene->height, 612.0 * 792.0, 1e-6);
}

TEST(WatershedMap, BothPaintersPaintItTheSameEachTime) {
    const Scene scene = watershed_map_scene(made_map(), settings_for(Paper::letter), measure_open_sans());
    EXPECT_EQ(painted_pdf(scene), painted_pdf(scene));
    const std::string svg = paint_svg(scene);
    EXPECT_EQ(svg, paint_svg(scene));
    EXPECT_NE(svg.find("data:image/png;base64,iVBORw0KGgo"), std::string::npos);
    EXPECT_LT(svg.size(), 500000U);
}

TEST(WatershedMap, AMapWithoutGroundIsAnError) {
    WatershedMap map;
    EXPECT_THROW(watershed_map_scene(map, settings_for(Paper::letter), measure_open_sans()), std::invalid_argument);
}

TEST(VeilPng, Base64IsThatOfTheStandard) {
    // RFC 4648, section 10.
    EXPECT_EQ(in_base64("foobar"), "Zm9vYmFy");
    EXPECT_EQ(in_base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(in_base64("foob"), "Zm9vYg==");
    EXPECT_EQ(in_base64(""), "");
}

TEST(VeilPng, EndsWithTheChunkThatEveryPngEndsWith) {
    Veil veil;
    veil.columns = 2;
    veil.rows = 1;
    veil.ink = {0, 255};
    const std::string png = veil_png(veil);
    // IEND has no data and the checksum AE 42 60 82 in every PNG.
    EXPECT_EQ(png.substr(png.size() - 8), std::string("IEND\xAE\x42\x60\x82"));
    veil.ink.pop_back();
    EXPECT_THROW(veil_png(veil), std::invalid_argument);
}

}  // namespace
}  // namespace soilhold::report
