#include "report/clods.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soilhold::report {

namespace {

constexpr double turn = 6.283185307179586;

// Radii of a lump at twelve even angles, as shares of half its size; drawn by hand.
constexpr std::array<std::array<double, 12>, 4> lumps = {{
    {0.98, 0.90, 0.95, 0.84, 0.93, 0.88, 0.97, 0.86, 0.92, 0.80, 0.90, 0.94},
    {0.90, 0.97, 0.86, 0.92, 0.82, 0.95, 0.91, 0.96, 0.83, 0.94, 0.88, 0.82},
    {0.95, 0.84, 0.91, 0.97, 0.89, 0.80, 0.94, 0.90, 0.98, 0.85, 0.83, 0.92},
    {0.87, 0.93, 0.98, 0.86, 0.90, 0.95, 0.81, 0.93, 0.87, 0.96, 0.91, 0.80},
}};

std::vector<Point> lump(Point middle, double size, std::size_t variant) {
    std::vector<Point> outline;
    for (std::size_t i = 0; i < 12; ++i) {
        const double angle = turn * (static_cast<double>(i) / 12.0 + 0.07 * static_cast<double>(variant));
        const double radius = 0.5 * size * lumps[variant % 4][i];
        outline.push_back({middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
    }
    return outline;
}

/// Crumbs on the ground under the clod, in one layer or two.
void draw_crumbs(Group& group, Point middle, double size, int count, double crumb, std::size_t variant) {
    const int lower = count > 5 ? count - count / 3 : count;
    for (int i = 0; i < count; ++i) {
        const bool upper = i >= lower;
        const int row = upper ? count - lower : lower, at = upper ? i - lower : i;
        const double place = row == 1 ? 0.0 : 2.0 * at / (row - 1.0) - 1.0;
        const double wander = 0.03 * std::sin(5.0 * i + 3.0 * static_cast<double>(variant));
        const double c = crumb * size * (0.9 + 0.2 * std::fabs(std::sin(2.3 * i + static_cast<double>(variant))));
        const double spread = upper ? 0.20 : 0.38;
        const Point seat{middle.x + size * (spread * place + wander),
                         middle.y + 0.47 * size - c / 2 - (upper ? 0.7 * crumb * size : 0.0)};
        group.marks.push_back(
            Area{lump(seat, c, variant + static_cast<std::size_t>(i)), Colour::earth, {}, 0.0, Colour::earth});
    }
}

/// A column of less than this has no room for a name beside its clods.
constexpr double side_by_side_width = 360.0;

struct KeyEntry {
    int slake_class;
    const char* words;
};
constexpr std::array<KeyEntry, 7> key = {{{6, "whole"},
                                          {5, "half left"},
                                          {4, "some left"},
                                          {3, "half gone in 5 min"},
                                          {2, "in 30 s"},
                                          {1, "in 5 s"},
                                          {0, "fell apart at once"}}};

double draw_key(Group& group, Point top_left, double width, const TextStyle& small, const Measure& measure) {
    const double size = 11.0, gap = 3.0;
    const auto width_of_entry = [&](const KeyEntry& entry) {
        return size + gap + measure(entry.words, small.size, false);
    };
    double total = 0.0;
    for (const KeyEntry& entry : key) total += width_of_entry(entry);
    // One line with even spaces where it fits, else as many lines as it takes.
    const double space = total + 6 * 4.0 <= width ? (width - total) / 6.0 : 10.0;
    const double line = std::max(size, small.line_height()) + 4.0;
    double x = top_left.x, y = top_left.y;
    for (const KeyEntry& entry : key) {
        if (x > top_left.x && x + width_of_entry(entry) > top_left.x + width + 0.5) {
            x = top_left.x;
            y += line;
        }
        const double middle = y + 0.5 * std::max(size, small.size) + 2.0;
        draw_clod(group, {x + size / 2, middle}, size, entry.slake_class, static_cast<std::size_t>(entry.slake_class));
        group.marks.push_back(Text{
            {x + size + gap, middle + 0.36 * small.size}, entry.words, small.size, false, Anchor::start, Colour::ink});
        x += width_of_entry(entry) + space;
    }
    return y + line;
}

}  // namespace

void draw_clod(Group& group, Point middle, double size, int slake_class, std::size_t variant) {
    const std::vector<Point> whole = lump(middle, size, variant);
    if (slake_class == 6) {
        group.marks.push_back(Area{whole, Colour::earth, std::nullopt, 0.6, Colour::ink});
        return;
    }
    if (slake_class >= 4) {
        // What is left keeps the clod's shape and sits on the ground; its area is about the share of its class.
        const double left = size * std::sqrt(slake_class == 5 ? 0.56 : 0.28);
        const Point seat{middle.x, middle.y + 0.45 * (size - left)};
        group.marks.push_back(Area{lump(seat, left, variant), Colour::earth, std::nullopt, 0.0, Colour::ink});
        if (slake_class == 4) draw_crumbs(group, middle, size, 5, 0.10, variant);
    } else if (slake_class > 0) {
        draw_crumbs(group, middle, size, slake_class == 3 ? 9 : 2 * slake_class + 1, 0.08 + 0.022 * slake_class,
                    variant);
    }
    group.marks.push_back(Polyline{whole, 0.4, Colour::ink, true, false});
}

double draw_clod_rows(Group& group, const std::vector<ClodRow>& rows, Point top_left, double width,
                      const TextStyle& body, const TextStyle& small, const Measure& measure, bool with_key) {
    double name_width = 0.0, count_width = 0.0;
    int most = 1;
    for (const ClodRow& row : rows) {
        name_width = std::max(name_width, measure(row.name, body.size, true));
        count_width = std::max(count_width, measure(row.count, body.size, false));
        int clods = 0;
        for (const int count : row.by_class) clods += count;
        most = std::max(most, clods);
    }
    const bool stacked = width < side_by_side_width;  // clods under the name, not beside it
    name_width = stacked ? width - count_width - 10.0 : std::min(name_width, 0.26 * width);
    const double left = stacked ? top_left.x : top_left.x + name_width + 10.0;
    const double room = stacked ? width : width - name_width - count_width - 20.0;
    const int abreast = std::min(most, stacked ? 18 : 24);
    const double pitch = std::min(19.0, room / abreast);
    const double size = 0.86 * pitch;
    double y = top_left.y;
    for (const ClodRow& row : rows) {
        const double first_middle = y + 0.5 * pitch + 1.0 + (stacked ? body.line_height() : 0.0);
        std::size_t at = 0;
        for (int slake_class = 6; slake_class >= 0; --slake_class)
            for (int i = 0; i < row.by_class[static_cast<std::size_t>(slake_class)]; ++i, ++at) {
                const auto column = static_cast<double>(at % static_cast<std::size_t>(abreast));
                const auto line = static_cast<double>(at / static_cast<std::size_t>(abreast));
                draw_clod(group, {left + (column + 0.5) * pitch, first_middle + line * pitch}, size, slake_class, at);
            }
        const auto lines = static_cast<double>(at == 0 ? 1 : (at - 1) / static_cast<std::size_t>(abreast) + 1);
        Group name;
        const double name_top = stacked ? y : first_middle - 0.5 * body.line_height();
        const double name_end = set_paragraph(name, row.name, {top_left.x, name_top}, name_width + 0.5,
                                              {body.size, true, body.leading}, measure, stacked ? 1 : 2);
        group.marks.insert(group.marks.end(), name.marks.begin(), name.marks.end());
        group.marks.push_back(Text{{top_left.x + width, name_top + 0.5 * body.line_height() + 0.36 * body.size},
                                   row.count,
                                   body.size,
                                   false,
                                   Anchor::end,
                                   Colour::ink});
        y = std::max(first_middle + (lines - 0.5) * pitch + 1.0, name_end) + 3.0;
    }
    return with_key ? draw_key(group, {top_left.x, y}, width, small, measure) : y;
}

}  // namespace soilhold::report
