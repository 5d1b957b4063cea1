#include "report/scene.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace soilhold::report {

Light light_of(Colour colour) {
    const auto of = [](int red, int green, int blue) { return Light{red / 255.0, green / 255.0, blue / 255.0}; };
    switch (colour) {
        case Colour::ink:
            return of(0x1D, 0x1D, 0x1B);
        case Colour::earth:
            return of(0x7A, 0x4B, 0x2A);
        case Colour::straw:
            return of(0xC8, 0xA1, 0x3A);
        case Colour::water:
            return of(0x2F, 0x6B, 0x8A);
        case Colour::tint:
            return of(0xF4, 0xF0, 0xE6);
        case Colour::paper:
            break;
    }
    return {1.0, 1.0, 1.0};
}

std::string hex_of(Colour colour) {
    const Light light = light_of(colour);
    const auto byte = [](double part) { return static_cast<unsigned>(std::lround(part * 255.0)); };
    char text[8];
    std::snprintf(text, sizeof text, "#%02X%02X%02X", byte(light.red) & 255U, byte(light.green) & 255U,
                  byte(light.blue) & 255U);
    return text;
}

double luminance_of(Colour colour) {
    const auto linear = [](double part) {
        return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    const Light light = light_of(colour);
    return 0.2126 * linear(light.red) + 0.7152 * linear(light.green) + 0.0722 * linear(light.blue);
}

std::vector<Point> rectangle(double left, double top, double width, double height) {
    return {{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}};
}

std::vector<Line> hatch_strokes(const Area& area) {
    std::vector<Line> strokes;
    if (!area.hatch || area.outline.empty()) return strokes;
    Point low = area.outline.front(), high = low;
    for (const Point& point : area.outline) {
        low = {std::min(low.x, point.x), std::min(low.y, point.y)};
        high = {std::max(high.x, point.x), std::max(high.y, point.y)};
    }
    // Strokes x + y = c, cut off at the sides of the rectangle.
    for (double c = low.x + low.y + 3.5; c < high.x + high.y; c += 3.5) {
        const double from_x = std::max(low.x, c - high.y), to_x = std::min(high.x, c - low.y);
        if (to_x - from_x > 0.3) strokes.push_back({{from_x, c - from_x}, {to_x, c - to_x}, 0.7, *area.hatch, false});
    }
    return strokes;
}

Box box_of(const Text& text, const Measure& measure) {
    const double width = measure(text.words, text.size, text.bold);
    double left = text.at.x;
    if (text.anchor == Anchor::middle) left -= width / 2;
    if (text.anchor == Anchor::end) left -= width;
    return {left, text.at.y - 0.76 * text.size, left + width, text.at.y + 0.24 * text.size};
}

}  // namespace soilhold::report
