#include "report/loss_bars.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units/printing.h"

namespace soilhold::report {

namespace {

/// Where the numbers of the scale stand on the page.
struct Axis {
    double left, width, most;
    double at(double value) const { return left + width * value / most; }
};

std::string mark_label(double mark, const std::string& unit) {
    return "T, the planners\xe2\x80\x99 mark: " + mark_words(mark, unit);
}

/// A column of less than this has no room for label, bar and numbers side by side: the bar goes under its label.
constexpr double side_by_side_width = 360.0;

void draw_bar(Group& group, const LossRow& row, const Axis& axis, double middle, double thickness) {
    Area area;
    const double top = middle - thickness / 2, bottom = middle + thickness / 2;
    area.outline = rectangle(axis.at(row.low), top, axis.at(row.high) - axis.at(row.low), thickness);
    area.fill = row.change ? Colour::paper : Colour::earth;
    if (row.change) {
        area.hatch = area.edge_colour = Colour::earth;
        area.edge = 0.8;
    }
    group.marks.push_back(area);
    const double tick = axis.at(row.central);
    // A light edge keeps the tick apart from the dark bar.
    group.marks.push_back(Line{{tick, top}, {tick, bottom}, 4.6, Colour::paper, false});
    group.marks.push_back(Line{{tick, top - 3.0}, {tick, bottom + 3.0}, 2.2, Colour::ink, false});
}

}  // namespace

std::string mark_words(double mark, const std::string& unit) {
    return fmt::format("{} {}", fmt::format("{:g}", std::round(10 * mark) / 10), unit);
}

double reach_of(const LossBars& bars) {
    double reach = bars.reach;
    for (const LossRow& row : bars.rows) reach = std::max({reach, row.high, row.mark.value_or(0.0)});
    return reach;
}

std::vector<double> axis_ticks(double most) {
    const double rough = most / 4.0;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    double step = 10.0 * power;
    for (const double one : {1.0, 2.0, 5.0})
        if (one * power >= rough * (1 - 1e-12)) {
            step = one * power;
            break;
        }
    std::vector<double> ticks = {0.0};
    while (ticks.back() < most * (1 - 1e-12)) ticks.push_back(step * static_cast<double>(ticks.size()));
    return ticks;
}

double draw_loss_bars(Group& group, const LossBars& bars, Point top_left, double width, const TextStyle& body,
                      const TextStyle& small, const Measure& measure) {
    double most = reach_of(bars), number_width = 0.0;
    for (const LossRow& row : bars.rows) {
        number_width =
            std::max({number_width, measure(row.middle, body.size, true), measure(row.range, small.size, false)});
    }
    if (!(most > 0)) most = 1.0;
    const std::vector<double> ticks = axis_ticks(most);
    const bool stacked = width < side_by_side_width;
    const double label_width = stacked ? width - number_width - 10.0 : 0.30 * width, indent = 0.9 * body.size;
    // The last tick's label is centred on the end of the axis and must clear the numbers.
    const Axis axis =
        stacked ? Axis{top_left.x + 3.0, width - 26.0, ticks.back()}
                : Axis{top_left.x + label_width + 12.0, width - label_width - number_width - 40.0, ticks.back()};
    const double bar = 0.95 * body.size;
    const bool any_mark =
        std::any_of(bars.rows.begin(), bars.rows.end(), [](const LossRow& row) { return row.mark.has_value(); });

    double y = top_left.y;
    std::optional<double> shown;  // the mark whose line is being drawn
    double line_top = y;
    const auto end_line = [&](double bottom) {
        if (shown && !stacked)
            group.marks.push_back(Line{{axis.at(*shown), line_top}, {axis.at(*shown), bottom}, 1.1, Colour::ink, true});
    };
    for (const LossRow& row : bars.rows) {
        if (any_mark && row.mark != shown) {
            end_line(y);
            shown = row.mark;
            if (shown) {
                const std::string label = mark_label(*shown, bars.unit);
                const double label_half = measure(label, small.size, false) / 2;
                const double x = std::clamp(axis.at(*shown), axis.left + label_half,
                                            std::max(axis.left + label_half, top_left.x + width - label_half));
                group.marks.push_back(
                    Text{{x, y + 0.82 * small.size}, label, small.size, false, Anchor::middle, Colour::ink});
                y += small.line_height();
                line_top = y - 1.0;
            }
        }
        // Label to the left, numbers to the right, the bar level with their middle.
        Group label;
        const TextStyle label_style{body.size, !row.change, 1.2};
        const double inset = row.change ? indent : 0.0;
        const std::size_t lines =
            std::max<std::size_t>(1, broken(row.label, label_width - inset, label_style, measure, 2).size());
        const double numbers = 1.18 * (body.size + small.size);
        const double words = std::max(numbers, static_cast<double>(lines) * label_style.line_height()) + 3.0;
        const double middle = y + words / 2, height = stacked ? words + bar + 9.0 : words;
        const double bar_middle = stacked ? y + words + bar / 2 + 2.0 : middle;
        set_paragraph(label, row.label,
                      {top_left.x + inset, middle - static_cast<double>(lines) * label_style.line_height() / 2},
                      label_width - inset, label_style, measure, 2);
        group.marks.insert(group.marks.end(), label.marks.begin(), label.marks.end());
        const double right = top_left.x + width;
        group.marks.push_back(
            Text{{right, middle - 0.10 * body.size}, row.middle, body.size, true, Anchor::end, Colour::ink});
        group.marks.push_back(
            Text{{right, middle + 0.98 * small.size}, row.range, small.size, false, Anchor::end, Colour::ink});
        draw_bar(group, row, axis, bar_middle, bar);
        // Under their labels the bars are crossed one by one, so that the line runs through no word.
        if (stacked && shown)
            group.marks.push_back(Line{{axis.at(*shown), bar_middle - bar / 2 - 3.0},
                                       {axis.at(*shown), bar_middle + bar / 2 + 3.0},
                                       1.1,
                                       Colour::ink,
                                       true});
        y += height;
    }
    end_line(y);

    y += 2.0;
    group.marks.push_back(Line{{axis.left, y}, {axis.at(ticks.back()), y}, 0.75, Colour::ink, false});
    for (const double tick : ticks) {
        const double x = axis.at(tick);
        group.marks.push_back(Line{{x, y}, {x, y + 3.0}, 0.75, Colour::ink, false});
        const std::string words = tick == 0.0 ? std::string("0") : fmt::format("{:g} {}", tick, bars.unit);
        group.marks.push_back(
            Text{{x, y + 4.0 + 0.82 * small.size}, words, small.size, false, Anchor::middle, Colour::ink});
    }
    return y + 4.0 + small.line_height();
}

}  // namespace soilhold::report
