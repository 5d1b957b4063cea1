#include "report/map_geometry.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>

namespace soilhold::report {

namespace {

template <class Visit>
void for_each_edge(const Rings& rings, const Visit& visit) {
    for (const auto& ring : rings)
        for (std::size_t i = 0; i < ring.size(); ++i) visit(ring[i], ring[(i + 1) % ring.size()]);
}

double distance_to(Point from, Point to, Point point) {
    const double dx = to.x - from.x, dy = to.y - from.y, length = dx * dx + dy * dy;
    double along = length > 0 ? ((point.x - from.x) * dx + (point.y - from.y) * dy) / length : 0.0;
    along = std::clamp(along, 0.0, 1.0);
    return std::hypot(point.x - from.x - along * dx, point.y - from.y - along * dy);
}

/// Cuts the stretch [0, 1] of an edge to where start + t step lies within low..high.
bool cut(double start, double step, double low, double high, double& from, double& to) {
    if (step == 0.0) return start >= low && start <= high;
    double a = (low - start) / step, b = (high - start) / step;
    if (a > b) std::swap(a, b);
    from = std::max(from, a);
    to = std::min(to, b);
    return from <= to;
}

double twice_area(const std::vector<Point>& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point& a = ring[i];
        const Point& b = ring[(i + 1) % ring.size()];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum;
}

/// Of the first ring.
Point middle_of_mass(const Rings& rings) {
    if (rings.empty() || !(std::abs(twice_area(rings.front())) > 0)) return {};
    Point sum;
    for_each_edge({rings.front()}, [&](Point a, Point b) {
        const double weight = a.x * b.y - b.x * a.y;
        sum = {sum.x + weight * (a.x + b.x), sum.y + weight * (a.y + b.y)};
    });
    const double whole = 3 * twice_area(rings.front());
    return {sum.x / whole, sum.y / whole};
}

struct Square {
    Point middle;
    double half = 0, inner = 0;  ///< half its side; distance of its middle from the edges, negative outside
    double most() const { return inner + half * std::numbers::sqrt2; }
    friend bool operator<(const Square& one, const Square& other) { return one.most() < other.most(); }
};

}  // namespace

bool is_inside(const Rings& rings, Point point) {
    bool inside = false;
    for_each_edge(rings, [&](Point a, Point b) {
        if ((a.y > point.y) != (b.y > point.y) && point.x < (b.x - a.x) * (point.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    });
    return inside;
}

double distance_to_edge(const Rings& rings, Point point) {
    double least = std::numeric_limits<double>::infinity();
    for_each_edge(rings, [&](Point a, Point b) { least = std::min(least, distance_to(a, b, point)); });
    return least;
}

bool edge_enters(const Rings& rings, const Box& box) {
    bool enters = false;
    for_each_edge(rings, [&](Point a, Point b) {
        double from = 0, to = 1;
        enters = enters || (cut(a.x, b.x - a.x, box.left, box.right, from, to) &&
                            cut(a.y, b.y - a.y, box.top, box.bottom, from, to));
    });
    return enters;
}

bool overlap(const Box& one, const Box& other) {
    return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

Box grown(const Box& box, double by) { return {box.left - by, box.top - by, box.right + by, box.bottom + by}; }

Point farthest_inside(const Rings& rings, double squeeze) {
    Rings squeezed = rings;
    for (auto& ring : squeezed)
        for (Point& point : ring) point.x *= squeeze;
    const Box box = bounds_of(squeezed);
    const auto square = [&](double x, double y, double half) {
        const double distance = distance_to_edge(squeezed, {x, y});
        return Square{{x, y}, half, is_inside(squeezed, {x, y}) ? distance : -distance};
    };
    // Squares over the field, the most promising cut in four until none can gain half a point.
    const double side = std::max(std::min(box.right - box.left, box.bottom - box.top), 1e-6);
    std::priority_queue<Square> open;
    const double most_squares = 64.0;
    const double step = std::max({side, (box.right - box.left) / most_squares, (box.bottom - box.top) / most_squares});
    for (double x = box.left; x < box.right; x += step)
        for (double y = box.top; y < box.bottom; y += step) open.push(square(x + step / 2, y + step / 2, step / 2));
    Square best;
    best.inner = -std::numeric_limits<double>::infinity();
    for (int cuts = 0; !open.empty() && cuts < 2000; ++cuts) {
        const Square top = open.top();
        open.pop();
        if (top.inner > best.inner) best = top;
        if (top.most() - best.inner <= 0.5) break;
        const double quarter = top.half / 2;
        for (const double dx : {-quarter, quarter})
            for (const double dy : {-quarter, quarter})
                open.push(square(top.middle.x + dx, top.middle.y + dy, quarter));
    }
    // The eye expects the middle: a field's middle of mass that is nearly as far from the edges is better.
    if (const Point middle = middle_of_mass(squeezed);
        best.inner > 0 && is_inside(squeezed, middle) && distance_to_edge(squeezed, middle) > 0.8 * best.inner)
        best.middle = middle;
    if (!(best.inner > 0)) return rings.empty() || rings.front().empty() ? Point{} : rings.front().front();
    return {best.middle.x / squeeze, best.middle.y};
}

Box bounds_of(const Rings& rings) {
    bool any = false;
    Box box;
    for (const auto& ring : rings)
        for (const Point& point : ring) {
            if (!any) box = {point.x, point.y, point.x, point.y};
            any = true;
            box = {std::min(box.left, point.x), std::min(box.top, point.y), std::max(box.right, point.x),
                   std::max(box.bottom, point.y)};
        }
    return box;
}

std::vector<Point> in_one_outline(const Rings& rings) {
    std::vector<Point> outline;
    for (std::size_t i = 0; i < rings.size(); ++i) {
        if (rings[i].empty()) continue;
        int around = 0;
        for (std::size_t other = 0; other < rings.size(); ++other)
            if (other != i && is_inside({rings[other]}, rings[i].front())) ++around;
        std::vector<Point> ring = rings[i];
        if ((twice_area(ring) > 0) != (around % 2 == 0)) std::reverse(ring.begin(), ring.end());
        const bool first = outline.empty();
        outline.insert(outline.end(), ring.begin(), ring.end());
        outline.push_back(ring.front());
        if (!first) outline.push_back(outline.front());
    }
    return outline;
}

}  // namespace soilhold::report
