#include "factors/reported_figures.h"

#include <stdexcept>
#include <string>

namespace soilhold::factors {

const source::Row& reported_figure(std::string_view quantity, std::string_view of) {
    std::string known;
    for (const source::Row& row : source::table("reported-figures").rows) {
        if (row.text("quantity") != quantity) continue;
        if (row.text("of") == of) return row;
        known += (known.empty() ? "" : "; ") + row.text("of");
    }
    throw std::invalid_argument("no figure of '" + std::string(of) + "' is at hand; there are: " + known);
}

}  // namespace soilhold::factors
