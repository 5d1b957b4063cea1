#include "report/year_strips.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace soilhold::report {

namespace {

constexpr std::array<const char*, 12> month_names = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
/// Years side by side narrower than this stand below each other.
constexpr double least_panel_width = 120.0, panel_gap = 10.0;

/// Heights of the bands as shares of the whole, and what one unit of each is in points.
struct Scales {
    double cover, loss, rain;  ///< band heights
    double most_loss, most_rain;
};

/// The greatest of 1, 2 or 5 times a power of ten up to `most`; @param most  > 0
double round_below(double most) {
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    for (const double one : {5.0, 2.0})
        if (one * power <= most) return one * power;
    return power;
}

Scales scales_of(const YearPicture& picture) {
    Scales scales{0.36 * picture.band_height, 0.38 * picture.band_height, 0.26 * picture.band_height, 0, 0};
    for (const YearStrip& strip : picture.strips)
        for (const YearPanel& panel : strip.panels)
            for (const YearBar& bar : panel.bars) {
                scales.most_loss = std::max(scales.most_loss, bar.loss);
                scales.most_rain = std::max(scales.most_rain, bar.rain);
            }
    if (!(scales.most_loss > 0)) scales.most_loss = 1;
    if (!(scales.most_rain > 0)) scales.most_rain = 1;
    return scales;
}

/// One panel: where its half-months and its ground lines are.
struct Frame {
    double left, width, cover_base, ground;
    double x(std::size_t half_month) const { return left + width * static_cast<double>(half_month) / 24.0; }
};

void fill(Group& group, double left, double top, double right, double bottom, Colour colour) {
    if (bottom - top < 0.05) return;
    Area area;
    area.outline = rectangle(left, top, right - left, bottom - top);
    area.fill = colour;
    group.marks.push_back(area);
}

void line(Group& group, Point from, Point to, double width, Colour colour = Colour::ink, bool dashed = false) {
    group.marks.push_back(Line{from, to, width, colour, dashed});
}

void write(Group& group, double x, double y, const std::string& words, const TextStyle& style, Anchor anchor) {
    group.marks.push_back(Text{{x, y}, words, style.size, style.bold, anchor, Colour::ink});
}

/// Strokes that go on from bar to bar without a step, cut at the bar's sides.
void stripe(Group& group, double left, double top, double right, double bottom) {
    constexpr double apart = 3.2;
    for (double c = std::ceil((left + top) / apart) * apart; c < right + bottom; c += apart) {
        const double from = std::max(left, c - bottom), to = std::min(right, c - top);
        if (to - from > 0.05) line(group, {from, c - from}, {to, c - to}, 0.75, Colour::straw);
    }
    line(group, {left, top}, {right, top}, 0.8, Colour::straw);
}

/// Rain hangs from the ground as strokes.
void rain(Group& group, double left, double right, double top, double height) {
    if (height < 0.3) return;
    const auto strokes = std::max<std::size_t>(1, static_cast<std::size_t>((right - left) / 2.6));
    for (std::size_t i = 0; i < strokes; ++i) {
        const double x = left + (right - left) * (static_cast<double>(i) + 0.5) / static_cast<double>(strokes);
        line(group, {x, top}, {x, top + height}, 1.1, Colour::water);
    }
}

void draw_season(Group& group, const YearPicture& picture, const Frame& frame, double top, double bottom) {
    const auto holds = [&](std::size_t i) {
        return (i + 24 - picture.season_first) % 24 < picture.season_count && picture.season_count < 24;
    };
    for (std::size_t i = 0; i < 24; ++i) {
        if (!holds(i) || (i > 0 && holds(i - 1))) continue;
        std::size_t end = i;
        while (end < 24 && holds(end)) ++end;
        fill(group, frame.x(i), top, frame.x(end), bottom, Colour::tint);
        for (const std::size_t edge : {i, end})
            line(group, {frame.x(edge), top}, {frame.x(edge), bottom}, 0.6, Colour::ink, true);
    }
}

void draw_bars(Group& group, const YearPanel& panel, const Frame& frame, const Scales& scales) {
    for (std::size_t i = 0; i < panel.bars.size() && i < 24; ++i) {
        const YearBar& bar = panel.bars[i];
        const double left = frame.x(i), right = frame.x(i + 1), inset = std::min(0.7, 0.08 * (right - left));
        const double ground_top = frame.cover_base - scales.cover * bar.ground;
        const double shade_top = ground_top - scales.cover * bar.shade;
        fill(group, left, ground_top, right, frame.cover_base, Colour::straw);
        if (ground_top - shade_top > 0.4) stripe(group, left, shade_top, right, ground_top);
        fill(group, left + inset, frame.ground - scales.loss * bar.loss / scales.most_loss, right - inset, frame.ground,
             Colour::earth);
        rain(group, left, right, frame.ground + 1.0, (scales.rain - 1.0) * bar.rain / scales.most_rain);
    }
    const double end = frame.left + frame.width;
    line(group, {frame.left, frame.cover_base}, {end, frame.cover_base}, 0.6);
    line(group, {frame.left, frame.ground}, {end, frame.ground}, 1.2);
}

/// @param named  else the ticks alone
void draw_months(Group& group, const Frame& frame, double top, bool named, const TextStyle& small,
                 const Measure& measure) {
    const bool letters = measure("Mar", small.size, false) + 2.0 > frame.width / 12.0;
    for (std::size_t month = 0; month <= 12; ++month)
        line(group, {frame.x(2 * month), top}, {frame.x(2 * month), top + 3.0}, 0.5);
    line(group, {frame.left, top}, {frame.left + frame.width, top}, 0.5);
    for (std::size_t month = 0; named && month < 12; ++month)
        write(group, frame.x(2 * month + 1), top + 2.5 + 0.85 * small.size,
              letters ? std::string(1, month_names[month][0]) : month_names[month], small, Anchor::middle);
}

/// What the bands are and how tall, to the left of a strip.
struct Gutter {
    std::vector<std::string> cover = {"Ground", "covered"}, loss = {"Soil that", "leaves"}, rain = {"Force", "of rain"};
    std::string whole = "100 %", loss_mark, rain_mark;
    double loss_at = 0, rain_at = 0;
    double words = 0, marks = 0;
    double width() const { return words + 6.0 + marks + 5.0; }
};

Gutter gutter_of(const YearPicture& picture, const Scales& scales, const TextStyle& small, const Measure& measure) {
    Gutter gutter;
    gutter.loss_at = round_below(scales.most_loss);
    gutter.rain_at = round_below(scales.most_rain);
    gutter.loss_mark = fmt::format("{:g} {}", gutter.loss_at, picture.unit);
    gutter.rain_mark = fmt::format("{:g} %", 100 * gutter.rain_at);
    for (const auto* lines : {&gutter.cover, &gutter.loss, &gutter.rain})
        for (const std::string& one : *lines) gutter.words = std::max(gutter.words, measure(one, small.size, true));
    for (const std::string* mark : {&gutter.whole, &gutter.loss_mark, &gutter.rain_mark})
        gutter.marks = std::max(gutter.marks, measure(*mark, small.size, false));
    return gutter;
}

void draw_gutter(Group& group, const Gutter& gutter, const Frame& frame, const Scales& scales, double left,
                 const TextStyle& small) {
    const TextStyle strong{small.size, true, small.leading};
    const double edge = frame.left - 5.0, leading = 1.08 * small.size;
    const auto words = [&](const std::vector<std::string>& lines, double middle) {
        double y = middle - leading * static_cast<double>(lines.size()) / 2 + 0.82 * small.size;
        for (const std::string& one : lines) {
            write(group, left, y, one, strong, Anchor::start);
            y += leading;
        }
    };
    const auto mark = [&](double y, const std::string& text) {
        line(group, {frame.left - 3.0, y}, {frame.left, y}, 0.6);
        write(group, edge, y + 0.34 * small.size, text, small, Anchor::end);
    };
    words(gutter.cover, frame.cover_base - 0.5 * scales.cover);
    mark(frame.cover_base - scales.cover, gutter.whole);
    mark(frame.cover_base, "0");
    words(gutter.loss, frame.ground - 0.5 * scales.loss);
    mark(frame.ground - scales.loss * gutter.loss_at / scales.most_loss, gutter.loss_mark);
    mark(frame.ground, "0");
    words(gutter.rain, frame.ground + 0.58 * scales.rain);
    mark(frame.ground + 1.0 + (scales.rain - 1.0) * gutter.rain_at / scales.most_rain, gutter.rain_mark);
    line(group, {frame.left, frame.cover_base - scales.cover}, {frame.left, frame.ground + scales.rain}, 0.6);
}

/// Name and amount; under each other where one line is too short. @return the y below
double draw_heading(Group& group, const YearStrip& strip, double left, double top, double width, const TextStyle& body,
                    const TextStyle& small, const Measure& measure) {
    const TextStyle strong{body.size, true, 1.3};
    const double amount = measure(strip.amount, small.size, false);
    if (measure(strip.name, body.size, true) + amount + 12.0 <= width) {
        write(group, left + width, top + 0.5 * (strong.line_height() - body.size) + 0.78 * body.size, strip.amount,
              small, Anchor::end);
        return set_paragraph(group, strip.name, {left, top}, width - amount - 10.0, strong, measure, 1);
    }
    top = set_paragraph(group, strip.name, {left, top}, width, strong, measure, 2);
    return set_paragraph(group, strip.amount, {left, top}, width, small, measure, 2);
}

/// Poles first: the words stand on paper of their own.
void draw_flags(Group& group, const std::vector<PlacedFlag>& flags, double foot, double step, double ground,
                const TextStyle& small, const Measure& measure) {
    const auto base = [&](std::size_t level) { return foot - step * static_cast<double>(level) - 2.0; };
    for (const PlacedFlag& flag : flags)
        line(group, {flag.x, base(flag.top() - 1) - 0.75 * small.size}, {flag.x, ground}, 0.6);
    for (const PlacedFlag& flag : flags)
        for (std::size_t i = 0; i < flag.lines.size(); ++i) {
            const bool rightwards = flag.right > flag.x;
            const double y = base(flag.top() - 1 - i), x = rightwards ? flag.x + 2.0 : flag.x - 2.0;
            const double width = measure(flag.lines[i], small.size, false);
            fill(group, rightwards ? x - 0.5 : x - width, y - 0.78 * small.size, rightwards ? x + width : x + 0.5,
                 y + 0.24 * small.size, Colour::paper);
            write(group, x, y, flag.lines[i], small, rightwards ? Anchor::start : Anchor::end);
        }
}

/// Flags over a panel, the bands and the months. @return the y below
double draw_panels(Group& group, const YearPicture& picture, const YearPanel* panels, std::size_t count, double left,
                   double top, double width, bool named_months, const Gutter& gutter, const Scales& scales,
                   const TextStyle& small, const Measure& measure) {
    const double all = width - gutter.width();
    const double each = (all - panel_gap * static_cast<double>(count - 1)) / static_cast<double>(count);
    const double step = 1.12 * small.size;
    std::vector<std::vector<PlacedFlag>> flags;
    std::size_t levels = panels[0].heading.empty() ? 0 : 1;
    for (std::size_t i = 0; i < count; ++i) {
        const double from = left + gutter.width() + static_cast<double>(i) * (each + panel_gap);
        const double heading = panels[i].heading.empty() ? 0.0 : measure(panels[i].heading, small.size, true);
        flags.push_back(placed_flags(panels[i].flags, from, from + each, small.size, measure, heading));
        for (const PlacedFlag& flag : flags.back()) levels = std::max(levels, flag.top());
    }
    const bool headings = !panels[0].heading.empty();
    const double flag_foot = top + step * static_cast<double>(levels) + 2.0;
    const double cover_base = flag_foot + 3.0 + scales.cover, ground = cover_base + scales.loss + 5.0;
    const double bottom = ground + scales.rain + 2.0;
    for (std::size_t i = 0; i < count; ++i) {
        const Frame frame{left + gutter.width() + static_cast<double>(i) * (each + panel_gap), each, cover_base,
                          ground};
        draw_season(group, picture, frame, flag_foot, bottom);
        draw_bars(group, panels[i], frame, scales);
        if (i == 0) draw_gutter(group, gutter, frame, scales, left, small);
        if (headings)
            write(group, frame.left, flag_foot - 2.0, panels[i].heading, {small.size, true, 1.3}, Anchor::start);
        draw_flags(group, flags[i], flag_foot, step, cover_base, small, measure);
        draw_months(group, frame, bottom, named_months, small, measure);
    }
    return bottom + 3.0 + (named_months ? small.line_height() : 1.0);
}

/// Swatches with words, as many on a line as there is room for.
double draw_key(Group& group, const YearPicture& picture, Point top_left, double width, const TextStyle& small,
                const Measure& measure) {
    struct Entry {
        int kind;
        std::string words;
    };
    std::vector<Entry> entries = {{0, "covered by stalks, residue and crowns"},
                                  {1, "covered by leaves above bare ground"},
                                  {2, "soil that leaves"},
                                  {3, "force of the rain, share of a year\xe2\x80\x99s"}};
    if (picture.season_count > 0 && picture.season_count < 24) entries.push_back({4, picture.season});
    const double side = 0.95 * small.size;
    double x = top_left.x, y = top_left.y;
    for (const Entry& entry : entries) {
        const double needed = side + 4.0 + measure(entry.words, small.size, false);
        if (x > top_left.x && x + needed > top_left.x + width) {
            x = top_left.x;
            y += small.line_height();
        }
        const double top = y + 0.12 * small.size, right = x + side, bottom = top + side;
        if (entry.kind == 0) fill(group, x, top, right, bottom, Colour::straw);
        if (entry.kind == 1) stripe(group, x, top, right, bottom);
        if (entry.kind == 2) fill(group, x, top, right, bottom, Colour::earth);
        if (entry.kind == 3) rain(group, x, right, top, side);
        if (entry.kind == 4) {
            fill(group, x, top, right, bottom, Colour::tint);
            for (const double edge : {x, right}) line(group, {edge, top}, {edge, bottom}, 0.6, Colour::ink, true);
        }
        write(group, right + 4.0, top + 0.85 * small.size, entry.words, small, Anchor::start);
        x += needed + 14.0;
    }
    return y + small.line_height();
}

}  // namespace

double draw_year_strips(Group& group, const YearPicture& picture, Point top_left, double width, const TextStyle& body,
                        const TextStyle& small, const Measure& measure) {
    const Scales scales = scales_of(picture);
    const Gutter gutter = gutter_of(picture, scales, small, measure);
    double y = top_left.y;
    for (const YearStrip& strip : picture.strips) {
        y = draw_heading(group, strip, top_left.x, y, width, body, small, measure);
        const std::size_t count = strip.panels.size();
        // Many strips share the names under the last one.
        const bool named = picture.strips.size() < 3 || &strip == &picture.strips.back();
        const bool beside =
            (width - gutter.width()) / static_cast<double>(std::max<std::size_t>(1, count)) - panel_gap >=
            least_panel_width;
        const std::size_t at_once = beside ? count : 1;
        for (std::size_t i = 0; i < count; i += at_once)
            y = draw_panels(group, picture, &strip.panels[i], at_once, top_left.x, y, width, named, gutter, scales,
                            small, measure);
        y += 5.0;
    }
    return draw_key(group, picture, {top_left.x, y}, width, small, measure);
}

}  // namespace soilhold::report
