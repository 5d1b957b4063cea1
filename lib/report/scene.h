/// A picture or page as a list of things to draw, in points from the top left corner: areas, lines, dots and lines
/// of text, in groups that say what they are. Layouts make one, painters paint it; neither knows the other.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace soilhold::report {

/// The paper and the five inks there are. Order, weight and hatching carry the meaning, colour only helps.
enum class Colour { paper, ink, earth, straw, water, tint };

/// "#7A4B2A"
std::string hex_of(Colour colour);

struct Light {
    double red, green, blue;  ///< 0..1
};
Light light_of(Colour colour);

/// Relative luminance 0..1 as an old copier sees it (ITU-R BT.709 weights on linear light; from memory).
double luminance_of(Colour colour);

enum class Anchor { start, middle, end };

struct Point {
    double x = 0.0, y = 0.0;
};

struct Line {
    Point from, to;
    double width = 0.8;
    Colour colour = Colour::ink;
    bool dashed = false;
};

struct Polyline {
    std::vector<Point> points;
    double width = 0.8;
    Colour colour = Colour::ink;
    bool closed = false;
    bool dashed = false;
};

/// A closed area: filled, hatched with diagonal strokes, edged; each or none.
struct Area {
    std::vector<Point> outline;
    std::optional<Colour> fill;
    std::optional<Colour> hatch;
    double edge = 0.0;  ///< width of the edge; 0 for none
    Colour edge_colour = Colour::ink;
};

/// One line of text; `at` is on its baseline.
struct Text {
    Point at;
    std::string words;
    double size = 10.0;
    bool bold = false;
    Anchor anchor = Anchor::start;
    Colour colour = Colour::ink;
};

/// Round dots of one size: a stipple.
struct Dots {
    std::vector<Point> at;
    double radius = 0.6;
    Colour colour = Colour::earth;
};

/// A veil of ink over a rectangle, cell by cell, row by row from the top: what lies under it shows through.
struct Veil {
    Point top_left;
    double width = 0.0, height = 0.0;  ///< points
    int columns = 0, rows = 0;
    std::vector<std::uint8_t> ink;  ///< columns x rows, 0 clear to 255 all ink
};

using Mark = std::variant<Line, Polyline, Area, Text, Dots, Veil>;

enum class Role { heading, subheading, paragraph, figure, ornament };

struct Group {
    Role role = Role::paragraph;
    std::string alt;  ///< of a figure, for who cannot see it
    std::vector<Mark> marks;
};

struct Scene {
    double width = 0.0, height = 0.0;
    std::string title, author, description;
    std::string date;  ///< "2026-04-18"
    std::vector<Group> groups;
};

/// Width of a line of text in points.
using Measure = std::function<double(const std::string& words, double size, bool bold)>;

/// The room a line of text takes: from the top of its tall letters to the foot of its long ones.
struct Box {
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
};
Box box_of(const Text& text, const Measure& measure);

std::vector<Point> rectangle(double left, double top, double width, double height);

/// The strokes of a hatched area, cut off at the rectangle around its outline, 3.5 points apart; none without a hatch.
std::vector<Line> hatch_strokes(const Area& area);

}  // namespace soilhold::report
