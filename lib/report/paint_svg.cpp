#include "report/paint_svg.h"

#include <fmt/format.h>

#include <cmath>

#include "report/veil_png.h"

namespace soilhold::report {

namespace {

/// Hundredths of a point, without "-0" and trailing zeros.
std::string number(double value) {
    std::string text = fmt::format("{:.2f}", std::round(value * 100.0) / 100.0 + 0.0);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string points_of(const std::vector<Point>& points) {
    std::string text;
    for (const Point& point : points)
        text += fmt::format("{}{},{}", text.empty() ? "" : " ", number(point.x), number(point.y));
    return text;
}

std::string stroke(double width, Colour colour, bool dashed) {
    return fmt::format("stroke=\"{}\" stroke-width=\"{}\"{}", hex_of(colour), number(width),
                       dashed ? " stroke-dasharray=\"2.2 2\"" : "");
}

struct Writer {
    std::string& svg;

    void operator()(const Line& line) const {
        svg += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" {}/>\n", number(line.from.x),
                           number(line.from.y), number(line.to.x), number(line.to.y),
                           stroke(line.width, line.colour, line.dashed));
    }
    void operator()(const Polyline& line) const {
        svg += fmt::format("<{} points=\"{}\" fill=\"none\" {}/>\n", line.closed ? "polygon" : "polyline",
                           points_of(line.points), stroke(line.width, line.colour, line.dashed));
    }
    void operator()(const Area& area) const {
        const std::string points = points_of(area.outline);
        if (area.fill) svg += fmt::format("<polygon points=\"{}\" fill=\"{}\"/>\n", points, hex_of(*area.fill));
        for (const Line& line : hatch_strokes(area)) (*this)(line);
        if (area.edge > 0)
            svg += fmt::format("<polygon points=\"{}\" fill=\"none\" {}/>\n", points,
                               stroke(area.edge, area.edge_colour, false));
    }
    void operator()(const Dots& dots) const {
        if (dots.at.empty()) return;
        svg += "<path d=\"";
        for (const Point& point : dots.at) svg += fmt::format("M{} {}h0", number(point.x), number(point.y));
        svg += fmt::format("\" fill=\"none\" stroke-linecap=\"round\" {}/>\n",
                           stroke(2.0 * dots.radius, dots.colour, false));
    }
    void operator()(const Veil& veil) const {
        if (veil.ink.empty()) return;
        svg += fmt::format(
            "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" "
            "href=\"data:image/png;base64,{}\"/>\n",
            number(veil.top_left.x), number(veil.top_left.y), number(veil.width), number(veil.height),
            in_base64(veil_png(veil)));
    }
    void operator()(const Text& text) const {
        const char* anchor = text.anchor == Anchor::start    ? ""
                             : text.anchor == Anchor::middle ? " text-anchor=\"middle\""
                                                             : " text-anchor=\"end\"";
        svg += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{} fill=\"{}\">{}</text>\n", number(text.at.x),
                           number(text.at.y), number(text.size), text.bold ? " font-weight=\"700\"" : "", anchor,
                           hex_of(text.colour), escaped(text.words));
    }
};

}  // namespace

std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (c == '&')
            result += "&amp;";
        else if (c == '<')
            result += "&lt;";
        else if (c == '>')
            result += "&gt;";
        else if (c == '"')
            result += "&quot;";
        else if (static_cast<unsigned char>(c) < 0x20)
            result += ' ';  // control characters are not allowed in XML
        else
            result += c;
    }
    return result;
}

std::string paint_svg(const Scene& scene, const std::string& style, const std::string& id, bool alone) {
    const std::string width = number(scene.width), height = number(scene.height);
    std::string svg = fmt::format(
        "<svg{5} viewBox=\"0 0 {0} {1}\" width=\"{0}pt\" height=\"{1}pt\" "
        "role=\"img\" aria-labelledby=\"{2}-title {2}-desc\" font-family=\"'Open Sans', sans-serif\">\n"
        "<title id=\"{2}-title\">{3}</title>\n<desc id=\"{2}-desc\">{4}</desc>\n",
        width, height, id, escaped(scene.title), escaped(scene.description),
        alone ? " xmlns=\"http://www.w3.org/2000/svg\"" : "");
    if (!style.empty()) svg += "<style>" + style + "</style>\n";
    svg += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"{}\"/>\n", width, height, hex_of(Colour::paper));
    for (const Group& group : scene.groups) {
        if (group.role == Role::figure)
            svg += fmt::format("<g role=\"img\" aria-label=\"{}\">\n", escaped(group.alt));
        else if (group.role == Role::ornament)
            svg += "<g aria-hidden=\"true\">\n";
        else
            svg += "<g>\n";
        for (const Mark& mark : group.marks) std::visit(Writer{svg}, mark);
        svg += "</g>\n";
    }
    return svg + "</svg>\n";
}

}  // namespace soilhold::report
