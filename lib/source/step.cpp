#include "source/step.h"

#include <cmath>

#include "units/printing.h"

namespace soilhold::source {

std::string in_working(double value, int figures) {
    std::string text = units::figures(value, figures);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return value < 0 ? "(" + text + ")" : text;
}

std::string held_working(const std::string& working, double free, double kept) {
    // The same value worked out on two roads may differ in its last bit; that is no limit at work.
    if (std::abs(free - kept) <= 1e-9 * std::abs(kept)) return working;
    return (free > kept ? "min(" : "max(") + in_working(kept) + ", " + working + ")";
}

}  // namespace soilhold::source
