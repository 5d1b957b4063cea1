#include "structure/knots.h"

#include <stdexcept>

#include "source/step.h"

namespace soilhold::structure {

double between_knots(const Knots& knots, double x) {
    if (knots.empty()) throw std::invalid_argument("no knots to draw lines between");
    if (x <= knots.front().first) return knots.front().second;
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const auto [x0, y0] = knots[i - 1];
        const auto [x1, y1] = knots[i];
        if (x <= x1) return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
    }
    return knots.back().second;
}

std::string knots_in_working(const Knots& knots, double x) {
    using source::in_working;
    if (knots.empty()) throw std::invalid_argument("no knots to draw lines between");
    if (x <= knots.front().first) return in_working(knots.front().second);
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const auto [x0, y0] = knots[i - 1];
        const auto [x1, y1] = knots[i];
        if (x > x1) continue;
        if (x == x1) return in_working(y1);
        return in_working(y0) + " + (" + in_working(y1) + " - " + in_working(y0) + ") x (" + in_working(x) + " - " +
               in_working(x0) + ") / (" + in_working(x1) + " - " + in_working(x0) + ")";
    }
    return in_working(knots.back().second);
}

}  // namespace soilhold::structure
