#include "report/clods.h"

#include <gmock/gmock.h>

#include <cmath>

namespace soilhold::report {
namespace {

/// Area of the earth drawn, overlaps counted twice: the shoelace rule.
double earth_in(const Group& group) {
    double total = 0.0;
    for (const Mark& mark : group.marks) {
        const Area* area = std::get_if<Area>(&mark);
        if (!area || area->fill != Colour::earth) continue;
        double twice = 0.0;
        for (std::size_t i = 0; i < area->outline.size(); ++i) {
            const Point& a = area->outline[i];
            const Point& b = area->outline[(i + 1) % area->outline.size()];
            twice += a.x * b.y - b.x * a.y;
        }
        total += std::fabs(twice) / 2;
    }
    return total;
}

TEST(Clods, ShowLessEarthWithEveryClassDown) {
    for (std::size_t variant = 0; variant < 8; ++variant) {
        double more = 1e9;
        for (int slake_class = 6; slake_class >= 0; --slake_class) {
            Group group;
            draw_clod(group, {0, 0}, 20, slake_class, variant);
            EXPECT_LT(earth_in(group), 0.85 * more) << "class " << slake_class << ", variant " << variant;
            more = earth_in(group);
        }
        EXPECT_EQ(more, 0.0) << "class 0 is gone";
    }
}

TEST(Clods, OfClassFiveKeepAboutHalf) {
    // Class 5 is 25 to 75 % left after five dips: Herrick et al. 2001, rules as read in a reprint
    Group whole, half;
    draw_clod(whole, {0, 0}, 20, 6, 1);
    draw_clod(half, {0, 0}, 20, 5, 1);
    EXPECT_GT(earth_in(half) / earth_in(whole), 0.25);
    EXPECT_LT(earth_in(half) / earth_in(whole), 0.75);
}

TEST(Clods, AreDrawnOnceForEachClodCounted) {
    const Measure measure = [](const std::string& words, double size, bool) {
        return 0.5 * size * static_cast<double>(words.size());
    };
    Group group;
    draw_clod_rows(group, {{"a", "held", {1, 0, 0, 0, 0, 0, 40}}}, {0, 0}, 400, {10.0}, {8.0}, measure, false);
    int whole = 0, gone = 0;
    for (const Mark& mark : group.marks) {
        if (std::holds_alternative<Area>(mark)) ++whole;
        if (std::holds_alternative<Polyline>(mark)) ++gone;
        if (const Area* area = std::get_if<Area>(&mark)) {
            for (const Point& point : area->outline) EXPECT_LT(point.x, 400);
        }
    }
    EXPECT_EQ(whole, 40);
    EXPECT_EQ(gone, 1);
}

TEST(Clods, InANarrowColumnStandClearOfTheWords) {
    const Measure measure = [](const std::string& words, double size, bool) {
        return 0.5 * size * static_cast<double>(words.size());
    };
    Group group;
    draw_clod_rows(group, {{"a", "1 held", {0, 0, 0, 0, 0, 0, 18}}, {"b", "2 held", {0, 0, 0, 0, 0, 0, 18}}}, {0, 0},
                   250, {10.0}, {8.0}, measure, false);
    for (const Mark& one : group.marks) {
        const Text* text = std::get_if<Text>(&one);
        if (!text) continue;
        const Box box = box_of(*text, measure);
        for (const Mark& other : group.marks) {
            const Area* area = std::get_if<Area>(&other);
            if (!area) continue;
            for (const Point& p : area->outline)
                EXPECT_FALSE(p.y > box.top && p.y < box.bottom && p.x > box.left && p.x < box.right) << text->words;
        }
    }
}

}  // namespace
}  // namespace soilhold::report
