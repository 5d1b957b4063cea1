#include "report/map_furniture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/loss_classes.h"
#include "report/words.h"
#include "units/unit.h"

namespace soilhold::report {

namespace {

Group& begin(std::vector<Group>& groups, Role role, const std::string& alt = "") {
    groups.push_back({role, alt, {}});
    return groups.back();
}

double say(std::vector<Group>& groups, Role role, const std::string& text, Point top_left, double width,
           const TextStyle& style, const Measure& measure) {
    return set_paragraph(begin(groups, role), text, top_left, width, style, measure);
}

std::string two_figures(double value) {
    return value < 9.95 ? fmt::format("{:.1f}", value)
                        : fmt::format("{:.0f}", value < 99.5 ? value : 10.0 * std::round(value / 10.0));
}

std::string loss_cell(const std::optional<double>& loss, units::System system) {
    if (!loss) return "no figure";
    const double value = system == units::System::us ? *loss / units::t_ha_per_ton_acre : *loss;
    return (value < 1.0 ? "under 1" : two_figures(value)) + " " + loss_unit(system);
}

std::string chance_cell(double chance) {
    const double percent = 100.0 * chance;
    return percent > 99.0 ? "over 99 %" : percent < 1.0 ? "under 1 %" : fmt::format("{:.0f} %", percent);
}

std::string fitted(const std::string& words, double width, const TextStyle& style, const Measure& measure) {
    for (std::size_t most = 60; most > 3; --most) {
        const std::string text = shortened_within(words, most);
        if (measure(text, style.size, style.bold) <= width) return text;
    }
    return shortened(words, 3);
}

std::string grouped(double scale) {
    const auto whole = static_cast<long>(std::lround(scale));
    return whole < 1000 ? fmt::format("{}", whole) : fmt::format("{},{:03}", whole / 1000, whole % 1000);
}

std::vector<const MapField*> first_by_rank(const WatershedMap& map) {
    std::vector<const MapField*> first;
    for (const MapField& field : map.fields) first.push_back(&field);
    std::sort(first.begin(), first.end(), [](const auto* a, const auto* b) { return a->rank < b->rank; });
    return first;
}

}  // namespace

BarLength bar_length(double scale, double wanted, units::System system) {
    constexpr double mile = 5280.0 * units::metre_per_foot;
    static const std::vector<BarLength> us = {{100 * units::metre_per_foot, "100 ft"},
                                              {200 * units::metre_per_foot, "200 ft"},
                                              {500 * units::metre_per_foot, "500 ft"},
                                              {1000 * units::metre_per_foot, "1,000 ft"},
                                              {mile / 4, "1/4 mile"},
                                              {mile / 2, "1/2 mile"},
                                              {mile, "1 mile"},
                                              {2 * mile, "2 miles"},
                                              {4 * mile, "4 miles"},
                                              {10 * mile, "10 miles"},
                                              {20 * mile, "20 miles"}};
    static const std::vector<BarLength> metric = {{20, "20 m"},     {50, "50 m"},     {100, "100 m"},  {200, "200 m"},
                                                  {400, "400 m"},   {1000, "1 km"},   {2000, "2 km"},  {4000, "4 km"},
                                                  {10000, "10 km"}, {20000, "20 km"}, {40000, "40 km"}};
    const auto& lengths = system == units::System::us ? us : metric;
    const auto off = [&](const BarLength& one) {
        return std::abs(std::log(one.metres / metres_per_point(scale) / wanted));
    };
    return *std::min_element(lengths.begin(), lengths.end(),
                             [&](const auto& a, const auto& b) { return off(a) < off(b); });
}

double draw_scale_bar(std::vector<Group>& groups, double scale, Point top_left, units::System system,
                      const TextStyle& small, const Measure& measure) {
    const BarLength length = bar_length(scale, 120.0, system);
    const double width = length.metres / metres_per_point(scale), height = 4.0;
    const std::string ruler = system == units::System::us ? fmt::format("{:.2f} in", width / 72.0)
                                                          : fmt::format("{:.0f} mm", width * 25.4 / 72.0);
    Group& group = begin(groups, Role::figure, fmt::format("Scale bar of {}, {} long on paper.", length.words, ruler));
    for (int part = 0; part < 4; ++part) {
        Area piece;
        piece.outline = rectangle(top_left.x + part * width / 4, top_left.y, width / 4, height);
        piece.fill = part % 2 == 0 ? Colour::ink : Colour::paper;
        piece.edge = 0.5;
        group.marks.push_back(piece);
    }
    const double line = top_left.y + 0.5 * height + 0.36 * small.size;
    group.marks.push_back(
        Text{{top_left.x + width + 5, line}, length.words, small.size, true, Anchor::start, Colour::ink});
    const double under = top_left.y + height + 1.15 * small.size;
    group.marks.push_back(
        Text{{top_left.x, under},
             fmt::format("1 : {}. A ruler on the bar says {}; if not, the copy is scaled.", grouped(scale), ruler),
             small.size,
             false,
             Anchor::start,
             Colour::ink});
    return top_left.x + measure(std::get<Text>(group.marks.back()).words, small.size, false);
}

void draw_north_arrow(std::vector<Group>& groups, Point foot, const TextStyle& small) {
    Group& group = begin(groups, Role::figure, "North is up.");
    Area half;
    half.outline = {{foot.x, foot.y - 17}, {foot.x - 4.5, foot.y}, {foot.x, foot.y - 3.5}};
    half.fill = Colour::ink;
    half.edge = 0.5;
    Area other = half;
    other.outline[1].x = foot.x + 4.5;
    other.fill = Colour::paper;
    group.marks = {half, other, Text{{foot.x, foot.y - 19}, "N", small.size, true, Anchor::middle, Colour::ink}};
}

double draw_legend(std::vector<Group>& groups, const WatershedMap& map, std::size_t without_number, double fineness,
                   Point top_left, double width, const TextStyle& body, const TextStyle& small,
                   const Measure& measure) {
    double y =
        say(groups, Role::subheading, "What the map shows", top_left, width, {body.size, true, body.leading}, measure);
    y = say(groups, Role::paragraph,
            "Dots: soil lost in an average year. T is the planners\xe2\x80\x99 mark, the loss a soil can bear.",
            {top_left.x, y + 1}, width, small, measure) +
        3;
    const double swatch = 38.0, height = 12.0, text_left = top_left.x + swatch + 7;
    const auto entry = [&](const std::string& words, const auto& draw) {
        Group& group = begin(groups, Role::paragraph);
        draw(group, rectangle(top_left.x, y, swatch, height));
        const double end = set_paragraph(group, words, {text_left, y + 0.5 * (height - small.line_height())},
                                         width - swatch - 7, small, measure);
        y = std::max(y + height, end) + 2.0;
    };
    for (std::size_t loss_class = 0; loss_class < 5; ++loss_class)
        entry(class_in_words(loss_class), [&](Group& group, const std::vector<Point>& box) {
            group.marks.push_back(Area{box, Colour::tint, std::nullopt, 0.0, Colour::ink});
            group.marks.push_back(stipple({box}, loss_class, {}, fineness));
            group.marks.push_back(
                Polyline{box, fineness * (loss_class >= 2 ? heavy_outline : thin_outline), Colour::ink, true, false});
        });
    const bool gaps = std::any_of(map.fields.begin(), map.fields.end(),
                                  [](const MapField& field) { return !class_of_loss(field.times_T); });
    if (gaps)
        entry("no figure: a value is missing", [&](Group& group, const std::vector<Point>& box) {
            group.marks.push_back(Polyline{box, fineness * thin_outline, Colour::ink, true, true});
        });
    if (!map.streams.empty())
        entry("stream", [&](Group& group, const std::vector<Point>& box) {
            const double middle = (box[0].y + box[2].y) / 2;
            group.marks.push_back(Line{{box[0].x, middle}, {box[1].x, middle}, stream_width, Colour::water, false});
        });
    std::string words =
        fmt::format("A heavy outline: more than T. The number is the field\xe2\x80\x99s rank by {}.", map.ranked_by);
    if (without_number == 1)
        words += " One field is too small here for its number.";
    else if (without_number > 1)
        words += fmt::format(" {} fields are too small here for their numbers.", without_number);
    return say(groups, Role::paragraph, words, {top_left.x, y}, width, small, measure);
}

double draw_first_fields(std::vector<Group>& groups, const WatershedMap& map, Point top_left, double width,
                         units::System system, const TextStyle& body, const TextStyle& small, const Measure& measure) {
    const std::vector<const MapField*> all = first_by_rank(map);
    const std::size_t count = std::min(listed_fields, all.size());
    double y =
        say(groups, Role::subheading,
            count == 1 ? std::string("The first field") : fmt::format("The first {} of {} fields", count, all.size()),
            top_left, width, {body.size, true, body.leading}, measure);
    const double right = top_left.x + width, chance_right = right;
    const double times_right = right -
                               std::max(measure("over 99 %", small.size, false),
                                        measure(fmt::format("in first {}", map.visits), small.size, false)) -
                               8;
    const double loss_right = times_right - measure("times T", small.size, false) - 8;
    const double name_left = top_left.x + 26;
    const double name_right = loss_right - measure("under 1 t/ac", small.size, false) - 5;
    const auto cell = [&](Group& group, const std::string& words, double x, double base, Anchor anchor,
                          bool bold = false) {
        group.marks.push_back(Text{{x, base}, words, small.size, bold, anchor, Colour::ink});
    };
    const double row = 1.34 * small.size;
    Group& head = begin(groups, Role::paragraph);
    y += small.size + 2;
    cell(head, "Field", name_left, y, Anchor::start);
    cell(head, "loss a year", loss_right, y, Anchor::end);
    cell(head, "times T", times_right, y, Anchor::end);
    cell(head, fmt::format("in first {}", map.visits), chance_right, y, Anchor::end);
    head.marks.push_back(Line{{top_left.x, y + 3}, {right, y + 3}, 0.5, Colour::ink, false});
    const double first_row = y + 3;
    for (std::size_t i = 0; i < count; ++i) {
        const MapField& field = *all[i];
        y += row;
        Group& group = begin(groups, Role::paragraph);
        cell(group, fmt::format("{}", field.rank), top_left.x + 21, y + 1, Anchor::end, true);
        cell(group, fitted(field.name, name_right - name_left, small, measure), name_left, y + 1, Anchor::start);
        cell(group, loss_cell(field.loss, system), loss_right, y + 1, Anchor::end);
        cell(group, field.times_T ? two_figures(*field.times_T) + " T" : "\xe2\x80\x93", times_right, y + 1,
             Anchor::end);
        cell(group, chance_cell(field.chance_in_top), chance_right, y + 1, Anchor::end);
    }
    // Brackets at the left of ranks that the doubt does not tell apart; open below where the group goes on.
    Group& ties = begin(groups, Role::ornament);
    bool any = false;
    for (std::size_t from = 0; from < count;) {
        std::size_t to = from + 1;
        while (to < all.size() && all[from]->tie_group != 0 && all[to]->tie_group == all[from]->tie_group) ++to;
        if (to - from > 1) {
            any = true;
            const std::size_t last = std::min(to, count);
            const double upper = first_row + static_cast<double>(from) * row + 3.5, x = top_left.x + 2;
            const double lower = first_row + static_cast<double>(last) * row + (to > count ? 2.0 : 0.0);
            std::vector<Point> bracket = {{x + 4, upper}, {x, upper}, {x, lower}};
            if (to <= count) bracket.push_back({x + 4, lower});
            ties.marks.push_back(Polyline{bracket, 0.8, Colour::ink, false, false});
        }
        from = to;
    }
    y += 8;
    std::string words = fmt::format(
        "\xe2\x80\x9cIn first {0}\xe2\x80\x9d: the chance that the field is truly among the {0} "
        "that can be seen.",
        map.visits);
    if (any) words += " A bracket joins fields that the doubt does not tell apart: their order is open.";
    return say(groups, Role::paragraph, words, {top_left.x, y}, width, small, measure);
}

}  // namespace soilhold::report
