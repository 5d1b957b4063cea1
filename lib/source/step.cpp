#include "source/step.h"

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

}  // namespace soilhold::source
