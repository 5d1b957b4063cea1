#include "report/loss_bars.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace soilhold::report {
namespace {

const Measure half_a_size = [](const std::string& words, double size, bool) {
    return 0.5 * size * static_cast<double>(words.size());
};
const TextStyle body{10.0}, small{8.0};

LossRow row(double low, double central, double high, std::optional<double> mark, bool change) {
    return {"a field", low, central, high, "x t/ac", "y t/ac", mark, change};
}

Group drawn(const LossBars& bars) {
    Group group;
    draw_loss_bars(group, bars, {50, 100}, 500, body, small, half_a_size);
    return group;
}

template <class T>
std::vector<T> all(const Group& group) {
    std::vector<T> list;
    for (const Mark& mark : group.marks)
        if (const T* one = std::get_if<T>(&mark)) list.push_back(*one);
    return list;
}

const Text& label(const std::vector<Text>& texts, const std::string& words) {
    for (const Text& text : texts)
        if (text.words == words) return text;
    throw std::out_of_range("no text " + words);
}

TEST(LossBars, StandOnAScaleThatBeginsAtZero) {
    const Group group = drawn({{row(10, 15, 20, 5, false), row(2, 3, 5, 5, false)}, "t/ac"});
    const auto areas = all<Area>(group);
    ASSERT_EQ(areas.size(), 2U);
    const double at_10 = areas[0].outline[0].x, at_20 = areas[0].outline[1].x;
    // Where the two ends of a bar say zero is, there the label 0 stands, and the other bar agrees.
    const double zero = at_10 - (at_20 - at_10);
    EXPECT_NEAR(label(all<Text>(group), "0").at.x, zero, 1e-6);
    EXPECT_NEAR(areas[1].outline[0].x, zero + 2 * (at_20 - at_10) / 10, 1e-6);
}

TEST(LossBars, OfAChangeAreHatchedAndOfNowSolid) {
    const auto areas = all<Area>(drawn({{row(10, 15, 20, {}, false), row(2, 3, 5, {}, true)}, "t/ac"}));
    ASSERT_EQ(areas.size(), 2U);
    EXPECT_EQ(areas[0].fill, Colour::earth);
    EXPECT_FALSE(areas[0].hatch.has_value());
    EXPECT_TRUE(areas[1].hatch.has_value());
    EXPECT_EQ(areas[1].fill, Colour::paper);
}

TEST(LossBars, ShareOneLineForOneMarkAndSayItsUnit) {
    const Group group = drawn({{row(10, 15, 20, 5, false), row(2, 3, 5, 5, true)}, "t/ac"});
    std::vector<Line> dashed;
    for (const Line& line : all<Line>(group))
        if (line.dashed) dashed.push_back(line);
    ASSERT_EQ(dashed.size(), 1U);
    for (const Area& area : all<Area>(group)) {
        EXPECT_LT(dashed[0].from.y, area.outline[0].y);
        EXPECT_GT(dashed[0].to.y, area.outline[2].y);
    }
    EXPECT_NEAR(dashed[0].from.x, label(all<Text>(group), "5 t/ac").at.x, 1e-6);
}

TEST(LossBars, OfFieldsWithOtherMarksHaveALineEach) {
    const Group group = drawn({{row(10, 15, 20, 5, false), row(2, 3, 5, 3, false)}, "t/ac"});
    int dashed = 0;
    for (const Line& line : all<Line>(group)) dashed += line.dashed ? 1 : 0;
    EXPECT_EQ(dashed, 2);
}

TEST(LossBars, InANarrowColumnStandUnderTheirLabels) {
    Group group;
    draw_loss_bars(group, {{row(10, 15, 20, 5, false), row(2, 3, 5, 5, true)}, "t/ac"}, {0, 0}, 250, body, small,
                   half_a_size);
    const auto areas = all<Area>(group);
    ASSERT_EQ(areas.size(), 2U);
    for (const Text& text : all<Text>(group)) {
        const Box box = box_of(text, half_a_size);
        EXPECT_GE(box.left, -3.0) << text.words;
        EXPECT_LE(box.right, 250.0) << text.words;
        for (const Area& area : areas)
            EXPECT_FALSE(box.bottom > area.outline[0].y + 0.5 && box.top < area.outline[2].y - 0.5) << text.words;
    }
    EXPECT_GT(areas[0].outline[1].x - areas[0].outline[0].x, 60.0);  // half of the scale
}

TEST(LossBars, TicksReachAtLeastTheLargestNumber) {
    EXPECT_TRUE(rc::check([] {
        const double most = *rc::gen::inRange(1, 1000000) / 1000.0;
        const auto ticks = axis_ticks(most);
        RC_ASSERT(ticks.front() == 0.0);
        RC_ASSERT(ticks.back() >= most * (1 - 1e-9));
        RC_ASSERT(ticks.back() <= 2.0 * most);
        RC_ASSERT(ticks.size() >= 3U && ticks.size() <= 6U);
    }));
}

}  // namespace
}  // namespace soilhold::report
