#include "report/map_labels.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soilhold::report {

namespace {

constexpr double large = 8.5, least = 7.0, air = 0.6;
constexpr std::size_t many = 60;  // numbers of one size are quieter than a mixture

/// A text with its figures' middle at a point. Figures stand on the line and are about 0.71 of the size tall.
Text centred(const std::string& words, Point middle, double size) {
    return {{middle.x, middle.y + 0.355 * size}, words, size, false, Anchor::middle, Colour::ink};
}

/// Figures have no long letters: their box ends at the line they stand on.
Box box_of_figures(const Text& text, const Measure& measure) {
    Box box = box_of(text, measure);
    box.bottom = text.at.y + 0.03 * text.size;
    box.top = text.at.y - 0.74 * text.size;
    return box;
}

bool within(const Box& inner, const Box& outer) {
    return inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top &&
           inner.bottom <= outer.bottom;
}

bool line_enters(const Line& line, const Box& box) { return edge_enters({{line.from, line.to}}, box); }

struct Placer {
    const std::vector<Rings>& fields;
    const Box& frame;
    const std::vector<std::vector<Point>>& lines;
    const Measure& measure;
    std::vector<PlacedLabel> placed;
    std::vector<Box> bounds;

    bool is_free(const Box& box) const {
        return within(box, frame) && std::none_of(placed.begin(), placed.end(), [&](const PlacedLabel& one) {
                   return overlap(grown(one.box, air), box) || (one.lead && line_enters(*one.lead, grown(box, air)));
               });
    }

    bool on_a_field(const Box& box) const {
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (overlap(bounds[i], box) &&
                (edge_enters(fields[i], box) ||
                 is_inside(fields[i], {(box.left + box.right) / 2, (box.top + box.bottom) / 2})))
                return true;
        return false;
    }

    /// The field's rings with the lines that cross it as edges there and back, which leave inside and outside alone.
    Rings parted(std::size_t field) const {
        Rings rings = fields[field];
        for (const auto& line : lines)
            for (std::size_t i = 1; i < line.size(); ++i)
                if (overlap(grown(bounds_of({{line[i - 1], line[i]}}), 0.01), bounds[field]))
                    rings.push_back({line[i - 1], line[i]});
        return rings;
    }

    bool set_inside(std::size_t field, const std::string& words) {
        const Rings with_lines = parted(field);
        for (const Rings* rings : {&with_lines, &fields[field]})
            for (const double size : fields.size() > many ? std::vector{least} : std::vector{large, least}) {
                const Box zero = box_of_figures(centred(words, {}, size), measure);
                const double squeeze = (zero.bottom - zero.top) / (zero.right - zero.left);
                const Point middle = farthest_inside(*rings, std::min(1.0, squeeze));
                const Text text = centred(words, middle, size);
                const Box box = box_of_figures(text, measure);
                if (!is_inside(*rings, middle) || edge_enters(*rings, grown(box, air)) || !is_free(box)) continue;
                placed.push_back({field, text, box, std::nullopt});
                return true;
            }
        return false;
    }

    bool set_outside(std::size_t field, const std::string& words) {
        const Point anchor = farthest_inside(fields[field]);
        for (double away = 9.0; away < 110.0; away += 3.0)
            for (int turn = 0; turn < 24; ++turn) {
                const double angle = turn * std::numbers::pi / 12;
                const Point middle{anchor.x + away * std::cos(angle), anchor.y + away * std::sin(angle)};
                const Text text = centred(words, middle, least);
                const Box box = box_of_figures(text, measure);
                if (!is_free(box) || on_a_field(grown(box, air))) continue;
                // The line ends at the edge of the label's box, a little before it.
                const double half_width = (box.right - box.left) / 2 + 1.2,
                             half_height = (box.bottom - box.top) / 2 + 1;
                const double across = std::abs(std::cos(angle)), down = std::abs(std::sin(angle));
                const double reach =
                    std::min(across > 1e-9 ? half_width / across : away, down > 1e-9 ? half_height / down : away);
                const Line lead{anchor,
                                {middle.x - reach * std::cos(angle), middle.y - reach * std::sin(angle)},
                                0.5,
                                Colour::ink,
                                false};
                if (std::any_of(placed.begin(), placed.end(),
                                [&](const PlacedLabel& one) { return line_enters(lead, grown(one.box, 0.5)); }))
                    continue;
                placed.push_back({field, text, box, lead});
                return true;
            }
        return false;
    }
};

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<Rings>& fields, const std::vector<std::string>& words,
                                      const Box& frame, const std::vector<std::vector<Point>>& lines, std::size_t led,
                                      const Measure& measure) {
    Placer placer{fields, frame, lines, measure, {}, {}};
    for (const Rings& rings : fields) placer.bounds.push_back(bounds_of(rings));
    std::vector<std::size_t> outside;
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (!placer.set_inside(i, words.at(i)) && i < led) outside.push_back(i);
    for (const std::size_t i : outside) placer.set_outside(i, words.at(i));
    return std::move(placer.placed);
}

}  // namespace soilhold::report
