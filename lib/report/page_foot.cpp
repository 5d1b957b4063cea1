#include "report/page_foot.h"

#include <algorithm>
#include <cctype>

namespace soilhold::report {

namespace {

/// A label and what was written, or a ruled line to write on.
double draw_line_to_fill(std::vector<Group>& groups, const std::string& label, const std::string& text, double left,
                         double top, double width, const TextStyle& small, const Measure& measure) {
    Group group;
    if (!text.empty()) {
        const double end = set_paragraph(group, label + " " + text, {left, top}, width, small, measure, 3);
        groups.push_back(group);
        return end + 1.5;
    }
    const double room = 3.0;  // a hand needs more height than type
    const double end = set_paragraph(group, label, {left, top + room}, width, small, measure);
    groups.push_back(group);
    const double from = left + measure(label, small.size, small.bold) + 4.0;
    const double base = end - 0.25 * small.line_height();
    Group rule;
    rule.role = Role::ornament;
    rule.marks.push_back(Line{{from, base}, {left + width, base}, 0.5, Colour::ink, false});
    groups.push_back(rule);
    return end + 1.5;
}

bool holds_a_number(const std::string& text) {
    return std::count_if(text.begin(), text.end(),
                         [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }) >= 5;
}

}  // namespace

double draw_foot(std::vector<Group>& groups, const PageContent& content, double left, double top, double width,
                 const TextStyle& small, const Measure& measure) {
    Group rule;
    rule.role = Role::ornament;
    rule.marks.push_back(Line{{left, top}, {left + width, top}, 0.75, Colour::ink, false});
    groups.push_back(rule);
    const double gutter = 18.0, left_width = (width - gutter) * 8.0 / 12.0, right_width = (width - gutter) * 4.0 / 12.0;
    const double right_left = left + left_width + gutter;
    const TextStyle strong{small.size, true, small.leading};

    double y = top + 6.0;
    Group heading;
    y = set_paragraph(heading, "Before you use these figures", {left, y}, left_width, strong, measure);
    groups.push_back(heading);
    std::string cautions;
    for (const std::string& caution : content.cautions) cautions += (cautions.empty() ? "" : " ") + caution;
    Group group;
    y = set_paragraph(group, cautions, {left, y}, left_width, small, measure);
    groups.push_back(group);

    double right_y = top + 6.0;
    right_y = draw_line_to_fill(groups, "Your local office:", content.local_office, right_left, right_y, right_width,
                                small, measure);
    if (!holds_a_number(content.local_office))
        right_y = draw_line_to_fill(groups, "Phone:", "", right_left, right_y, right_width, small, measure);
    right_y = draw_line_to_fill(groups, "Prepared by:", content.prepared_by, right_left, right_y, right_width, small,
                                measure);
    right_y = draw_line_to_fill(groups, "Date:", content.date, right_left, right_y, right_width, small, measure);
    Group maker;
    right_y = set_paragraph(maker, "Worked out with " + content.maker + ".", {right_left, right_y}, right_width, small,
                            measure);
    groups.push_back(maker);

    y = std::max(y, right_y) + 3.0;
    Group sources;
    y = set_paragraph(sources, "Where the values come from: " + content.sources, {left, y}, width, small, measure);
    groups.push_back(sources);
    return y;
}

}  // namespace soilhold::report
